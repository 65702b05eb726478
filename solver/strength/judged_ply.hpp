#pragma once

#include <string>
#include <vector>

#include "solver/laminate/layup.hpp"
#include "solver/strength/ply_failure.hpp"

namespace vrid {

/// What a material gives as: tells the names of its failure.
enum class MaterialFamily { fibre, wood, metal, plastic };

/// A material in a ply: the ply's own, or one of the strips smeared into it.
struct JudgedPart {
    std::string material;
    MaterialFamily family = MaterialFamily::fibre;
    std::optional<PlyStrength> strength; ///< nothing: not judged
    /// Its stress from the ply's mean one, (11, 22, 12) and (13, 23). Smeared strips have one
    /// strain along the grain and one stress across it, as their moduli were smeared.
    Eigen::Matrix3d share = Eigen::Matrix3d::Identity();
    Eigen::Vector2d shear_share = Eigen::Vector2d::Ones();
};

/// A ply with what it bears.
struct JudgedPly {
    int layer = 0;    ///< in JudgedLayup::layers
    int number = 1;   ///< within its layer, from below
    double angle = 0; ///< [rad], from +x towards +y
    PlyConstants<double> ply;
    bool core = false; ///< stands in the core's place
    double E3 = 0;     ///< of a core [Pa]
    std::vector<JudgedPart> parts;
};

/// The board's layup again, as far as strength goes.
struct JudgedLayup {
    std::vector<std::string> layers;           ///< names, for people
    std::vector<std::vector<JudgedPly>> items; ///< plies by layup item, upwards
    std::vector<JudgedPly> core_variants;
    JudgedPly edge, flange;
    std::vector<std::string> not_judged; ///< layers without strengths, and what of them is not
    std::vector<std::string> taken;      ///< strengths that stand in for others
};

/// \param layup of a board that outlives the result
JudgedLayup judged_layup(const Layup<double>& layup);

/// The plies of a stack upwards, one for each of stack_laminae.
std::vector<const JudgedPly*> judged_stack(const Layup<double>& layup, const JudgedLayup& judged,
                                           const StackKey& key);

} // namespace vrid
