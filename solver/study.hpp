#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "mesh/mesh.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/quantity.hpp"
#include "solver/system/numbering.hpp"

namespace vrid {

struct StudyOptions {
    std::vector<std::string> cases;  ///< names in the case table; empty: all that the board allows
    int degree = 0;                  ///< 1..6; 0: the default
    double max_size = 0;             ///< longest quad side [m]; 0: the default
    std::optional<double> rel_error; ///< refine until every bar / value is below this
    int threads = 0;                 ///< 0: as many as cores
    /// Told at the start of every phase ("mesh", "sections", ...) with the share done, 0..1. May
    /// throw to cancel.
    std::function<void(const std::string& phase, double share)> progress;
};

/// What one case gave.
struct CaseResult {
    std::string name;
    std::string skipped;                ///< why it was not run; empty if it was
    std::vector<NamedQuantity> numbers; ///< at least "stiffness" for a static case
    Eigen::VectorXd motion;             ///< 5 per node: u v w bx by [m, rad], at unit load or turn
    std::vector<double> deflection;     ///< per mesh line: width mean of w [m]
    std::vector<double> twist;          ///< per mesh line: least-squares slope dw/dy [rad]
    double residual = 0;                ///< relative, of the reduced system
};

struct StudyResult {
    Mesh mesh;
    Numbering numbering;             ///< at the higher of the two degrees
    std::vector<CaseResult> cases;   ///< in the order of the case table
    std::vector<CrossSection> stations; ///< at the mesh lines' x, where the board has width
    int unknowns = 0;
    double residual = 0;                ///< the largest
    bool rel_error_met = true;
    std::map<std::string, double> seconds; ///< mesh, sections, assemble, factor, solve
    std::vector<std::string> warnings;
};

/// Runs the cases on the board. \throws InputError for a named case the board cannot have (an
/// unknown name too), SolveError when it cannot be computed.
StudyResult run_study(const Board& board, const StudyOptions& options);

} // namespace vrid
