#pragma once

#include <array>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/mesh.hpp"
#include "solver/response/cooled_shape.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/quantity.hpp"
#include "solver/system/model.hpp"

namespace vrid {

struct SectionWeights; // solver/response/section_weights

/// What one case gave.
struct CaseResult {
    std::string name;
    std::string skipped;                ///< why it was not run; empty if it was
    std::vector<NamedQuantity> numbers; ///< "stiffness" for a static case; "mode 1", "camber" ...
    /// 5 per node: u v w bx by [m, rad], at unit load or turn; first mode scaled to max |w| = 1;
    /// what cooling does, against the line through the contact stations on the long axis.
    Eigen::VectorXd motion;
    std::vector<double> deflection; ///< per mesh line: width mean of w [m]
    std::vector<double> twist;      ///< per mesh line: least-squares slope dw/dy [rad]
    double residual = 0; ///< relative, of the force; of vibrations its square, as frequencies go
    std::shared_ptr<const CooledShape> cooled; ///< of `release` and `cold`; else null
};

/// A case on the board bent far. Of a bending case: "force" [N] that holds it there, "stiffness"
/// (force over travel), "tangent" (of force by travel), "flattening" (the two edges' w less the
/// middle's on the loaded line). Of a twist case, of the board while bent by centre-flex, or by the
/// flex case of the same end: "stiffness" of a small turn.
struct BentCase {
    std::string name;  ///< of the bench case
    double travel = 0; ///< width mean of the loaded line's w, counted as in riding [m]
    std::vector<NamedQuantity> numbers;
    Eigen::VectorXd motion;          ///< of a bending case, from rest: 5 per node [m, -]
    Eigen::VectorXd coarse_motion{}; ///< the same at the lower degree
    /// Of StudyOptions::bent_weights those that this case has, and what they owe to the section, a
    /// column each; null if it has none.
    std::vector<std::string> weighed{};
    std::shared_ptr<const SectionWeights> weights{};
};

/// A bent case without numbers.
struct BentMiss {
    std::string name; ///< of the bench case
    double travel = 0;
    std::string why; ///< with the travel that was reached
};

/// A board's model at one degree with the motions that its cases gave.
struct SolvedModel {
    PlateModel model;
    /// Per case in the order of StudyResult::cases, unknowns x numbers: at unit load or turn, or
    /// the modes with x^T M x = 1; empty for a skipped case.
    std::vector<Eigen::MatrixXd> motion;
    /// What a cooled board answers to a unit of each of its numbers, unknowns x numbers; empty
    /// without such a case.
    Eigen::MatrixXd cooling_adjoint;
};

struct Prepared;

struct StudyResult {
    Mesh mesh;
    Numbering numbering;                   ///< at the higher of the two degrees
    std::shared_ptr<const RestShape> rest; ///< what it was computed on; null: the flat blank
    std::vector<CaseResult> cases;         ///< in the order of the case table
    std::vector<BentCase> bent;            ///< by case, then by travel
    std::vector<BentMiss> not_bent;        ///< of the travels asked for, those not reached
    std::vector<CrossSection> stations;    ///< at the mesh lines' x, where the board has width
    /// At the lower and at the higher degree; null unless StudyOptions::keep_models.
    std::array<std::shared_ptr<const SolvedModel>, 2> solved;
    std::shared_ptr<const Prepared> prepared; ///< what the last pass ran on: solver/prepared
    int unknowns = 0;
    double residual = 0; ///< the largest
    bool rel_error_met = true;
    std::map<std::string, double> seconds;  ///< mesh, sections, assemble, factor, solve
    std::vector<std::string> bent_warnings; ///< of the last pass; also among the warnings
    std::vector<std::string> warnings;
};

} // namespace vrid
