#pragma once

#include <cstddef>
#include <vector>

#include "mesh/board/eigen_names.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

/// A front being put together: lower triangle of k + m rows, by columns, in two parts.
struct FrontAssembly {
    int k = 0;                  ///< unknowns eliminated
    int m = 0;                  ///< unknowns handed on
    double* panel = nullptr;    ///< (k + m) x k
    double* rest = nullptr;     ///< m x m
    double* diagonal = nullptr; ///< k + m: sums of the elements' diagonals

    /// column(c)[r] is entry (r, c), r >= c, in either part.
    [[nodiscard]] double* column(int c) const {
        return c < k ? panel + static_cast<std::size_t>(c) * (k + m)
                     : rest + static_cast<std::size_t>(c - k) * m - k;
    }
};

/// Consecutive incoming rows that are consecutive in the front too.
struct Run {
    int from = 0, to = 0, length = 0;
};

/// Rows of the dofs of a front's pivots, then of its boundary: free pivots and all of the boundary
/// are counted, a fixed pivot has -1.
void number_front_rows(const EliminationFront& front, const std::vector<char>& fixed,
                       std::vector<int>& row);

/// Runs of incoming rows; row: place in the front, -1 to leave out.
void find_runs(const std::vector<int>& row, std::vector<Run>& runs);

/// Numbers in what a front hands on: the lower triangle in m x m, then m sums of diagonals.
inline std::size_t handed_size(int m) {
    return static_cast<std::size_t>(m) * m + m;
}

/// Adds what a child of m boundary unknowns hands on. Its rows must rise in the front.
void add_child(const FrontAssembly& front, const double* handed, int m,
               const std::vector<Run>& runs);

/// Adds a full symmetric element matrix; its rows may come in any order.
void add_element(const FrontAssembly& front, const Eigen::MatrixXd& K,
                 const std::vector<Run>& runs);

} // namespace vrid
