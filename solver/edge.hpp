#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/mesher.hpp"
#include "solver/edge_condition.hpp"
#include "solver/prepared.hpp"
#include "solver/response/edge_curve.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

struct EdgeAdjoint; // solver/response/edge_weights

/// What else to find, and how.
struct EdgeOptions : Settings {
    bool motion = false;  ///< also the whole board's motion for every condition
    bool bars = true;     ///< also at the degree below, for error bars
    bool weights = false; ///< also what the numbers owe to the section, for derivatives
    bool adjoint = false; ///< with the weights, what they owe to everything else, too; not if bent
    /// The mesh to run on; null: own, from the board's own section.
    SharedPrepared prepared = nullptr;
};

struct EdgeConditionResult {
    EdgeCondition condition;
    std::string no_equilibrium;         ///< why; empty when the board comes to rest
    std::vector<NamedQuantity> numbers; ///< as edge_numbers, with bars; empty without equilibrium
    EdgeCurve curve;
    Eigen::VectorXd motion;                        ///< 5 per node [m, rad], if asked for
    std::shared_ptr<const SectionWeights> weights; ///< of `numbers`, if asked for
    std::shared_ptr<const EdgeAdjoint> adjoint;    ///< likewise
    double slope = 0;                              ///< largest of |dw/dx|, |dw/dy| along the edge
    double flattening = 0; ///< Searle's b^2 / (R h); 0 where the board stays straight
    int steps = 0;         ///< of Newton's method
    double least_c = 1;    ///< in large motion, as BentRest
    double most_strain = 0;
};

struct EdgeResult {
    Mesh mesh;
    Numbering numbering;                   ///< at the higher of the two degrees
    std::shared_ptr<const RestShape> rest; ///< what it was computed on; null: the flat blank
    bool bent = false;                     ///< in large motion
    std::vector<EdgeConditionResult> conditions;
    SharedPrepared prepared; ///< what it ran on
    int unknowns = 0;
    std::map<std::string, double> seconds; ///< mesh, sections, factor, compliance, contact, motion
    std::vector<std::string> warnings;
};

// Limits of the board in small motion, beyond which a warning is given.
constexpr double slope_limit = 0.15;
/// At b^2 / (R h) = 1 the curvature across a free strip has lost 3 %, its bending stiffness gained
/// 0.3 %; at 2 it is 10 % and 1 % (Ashwell 1950, homogeneous strip, nu = 0.3).
constexpr double flattening_limit = 1;

/// The part of run_edge that does not depend on the section's values. \throws as run_edge
SharedPrepared prepare_edge(const Board& board, const EdgeOptions& options);

/// What the mesher is asked for: equal requests on equal outlines and borders give equal meshes.
MeshOptions edge_mesh_options(const Board& board, const EdgeOptions& options);

/// The board in all these conditions: one mesh, at each of two degrees one factorisation and one
/// block solve a side, and a small dense problem a condition, each begun from the one before.
/// Bars: the difference of the two degrees. Bent boards: some seven factorisations a condition at
/// the lower degree, from where it rests there some four at the higher, see rest_bent, and one more
/// for weights. \param conditions all of small motion, or all
/// bent \throws InputError for a condition or a board that cannot be (no stance, foot off the
/// board, bent on a flat blank), SolveError,
/// std::logic_error for a mesh that was prepared for something else
EdgeResult run_edge(const Board& board, const std::vector<EdgeCondition>& conditions,
                    const EdgeOptions& options = {});

} // namespace vrid
