#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "solver/cases/cases.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

/// Seconds by phase: "assemble", "factor", "solve".
using Seconds = std::map<std::string, double>;

/// One load case solved on one model.
struct CaseSolution {
    double stiffness = 0; ///< SI, of the case's unit
    Eigen::VectorXd u;    ///< at unit force or turn [m, rad]
    /// Relative: of the force, or, where rounding alone keeps that above 1e-8, the energy norm of
    /// the last refinement over that of u.
    double residual = 0;
};

/// The order of elimination for all cases with these lines: depends on the mesh and degree alone.
EliminationTree elimination_order(const Numbering& numbering, const std::vector<double>& stations);

/// Factors of the model on each of some supports (per set: a flag per unknown). Equal sets have one
/// factor between them, and what no support touches is factored once.
/// \param tree the model's elimination_order; it must outlive the factors
std::vector<std::shared_ptr<const Factor>>
factorise_supports(const PlateModel& model, const std::vector<std::vector<char>>& supports,
                   const EliminationTree& tree, SolveMeans means, Seconds& seconds);

/// Solves load cases on one model. The residual of K u = f is checked against the unreduced matrix
/// and refined, twice at most.
/// \param factors of the loadings' supports, one each
/// \throws SolveError when CaseSolution::residual stays above 1e-6.
std::vector<CaseSolution> solve_loadings(const PlateModel& model,
                                         const std::vector<Loading>& loadings,
                                         const std::vector<std::shared_ptr<const Factor>>& factors,
                                         int threads, Seconds& seconds);

/// Both, with memory fresh from the system.
std::vector<CaseSolution> solve_loadings(const PlateModel& model,
                                         const std::vector<Loading>& loadings,
                                         const EliminationTree& tree, int threads,
                                         Seconds& seconds);

} // namespace vrid
