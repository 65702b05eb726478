#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "solver/cases/cases.hpp"
#include "solver/response/result.hpp"
#include "solver/settings.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

/// A model and its elimination_order.
struct BendModel {
    const PlateModel& model;
    const EliminationTree& tree;
};

/// Where the way of a bending case has come to.
struct BendStop {
    std::string bending; ///< "nose-flex"
    double travel = 0;   ///< [m]
    double force = 0;    ///< [N]
    Eigen::VectorXd motion;
    std::string why_not{}; ///< why it has not come there; empty if it has
};

/// The bent numbers of some bench cases at one degree, without bars.
struct BendPass {
    const PlateModel* model = nullptr; ///< must outlive it
    std::vector<BentCase> cases;       ///< the bending cases by travel, then the twists
    std::vector<std::string> warnings;
    /// w of the loaded line of the bending cases, which lead: right edge, left edge, middle [m].
    std::vector<Eigen::Vector3d> lines;
    std::vector<BendStop> stops;
    std::vector<BentMiss> missed; ///< cases at travels that the board cannot be bent to
};

/// Of a line's w: the two edges' mean less the middle's.
extern const Eigen::Vector3d flattening;

/// Whether a case of the table has bent numbers.
bool bends(const std::string& bench_case);

/// Bends the board to every travel of the settings: centre pushed down, tips lifted up, the force
/// vertical, by Newton's method with the travel prescribed; then the tangent twist stiffness of the
/// twist cases, the bending force staying as a dead load on its line while the supports are those
/// of the twist case. Of other cases nothing.
/// \param near a pass of a lower degree on the same mesh: Newton starts where it stood, which saves
/// most of the way, and what it has not reached is not tried; null: from rest
/// \param weighed names of numbers to tell what they owe to the section
/// \returns as missed what lies beyond the end of the way: where the board buckles (a pivot of the
/// tangent stiffness is not positive), or steps of under half a millimetre do not converge
BendPass bend_pass(const Board& board, const BendModel& at,
                   const std::vector<const BenchCase*>& cases, const Settings& settings,
                   const BendPass* near = nullptr, const std::vector<std::string>& weighed = {});

} // namespace vrid
