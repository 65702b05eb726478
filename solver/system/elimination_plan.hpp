#pragma once

#include <cstddef>
#include <vector>

#include "solver/system/elimination.hpp"

namespace vrid {

/// What one factorisation has to do, per front.
struct EliminationPlan {
    std::vector<char> compute;           ///< 0: taken over from the shared factor
    std::vector<char> keep;              ///< its Schur complement outlives the factorisation
    std::vector<int> pivots;             ///< free unknowns among its pivot nodes
    std::vector<std::size_t> place;      ///< where its columns start in the memory for all of them
    std::vector<double> work;            ///< of its computed subtree, about in flops
    std::size_t size = 0;                ///< numbers in all computed columns
    std::vector<std::size_t> kept_place; ///< where what a computed front hands on is kept
    std::size_t kept_size = 0;           ///< numbers in all of these
};

EliminationPlan plan_elimination(const EliminationTree& tree, const std::vector<char>& fixed,
                                 const FactorOptions& options);

/// Unknowns on the boundary of a front, fixed ones included.
inline int boundary_dofs(const EliminationFront& front) {
    return node_dofs * static_cast<int>(front.boundary.size());
}

/// Multiplications and additions to eliminate k unknowns that meet m others.
inline double front_flops(double k, double m) {
    return k * (k * k / 3 + k * m + m * m);
}

/// Of a front the work, about in flops: moving a number costs as much as twenty.
inline double front_work(double k, double m) {
    return front_flops(k, m) + 20 * (k + m) * (k + m);
}

/// Of all fronts that are computed.
double total_work(const EliminationTree& tree, const EliminationPlan& plan);

/// A piece of work for one thread: a whole subtree, or a front whose children are done.
struct EliminationTask {
    int front = 0;
    bool subtree = false;
};

/// Subtrees small enough to balance the threads are one task each; above them every front is one.
std::vector<EliminationTask> split_tasks(const EliminationTree& tree, const EliminationPlan& plan,
                                         int threads);

} // namespace vrid
