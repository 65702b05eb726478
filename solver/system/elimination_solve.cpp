#include <algorithm>
#include <stdexcept>
#include <thread>

#include <cblas.h>

#include "solver/system/dense_front.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/front_assembly.hpp"

namespace vrid {

namespace {

// Free dofs in the order of elimination, so that the pivots of a front are consecutive and its
// boundary is a few runs.
struct Order {
    std::vector<int> dof;       // of each row
    std::vector<int> first;     // per front: row of its first pivot
    std::vector<Run> runs;      // of all fronts: from place on the boundary to row
    std::vector<int> first_run; // fronts + 1
    int largest = 0;            // rows of a front
};

Order order_rows(const Factor& factor) {
    const EliminationTree& tree = *factor.tree;
    Order order;
    std::vector<int> row(factor.fixed.size(), -1);
    for (const EliminationFront& front : tree.fronts) {
        order.first.push_back(static_cast<int>(order.dof.size()));
        for (const int n : front.pivots) {
            for (int d = node_dofs * n; d < node_dofs * (n + 1); ++d) {
                if (factor.fixed[d] == 0) {
                    row[d] = static_cast<int>(order.dof.size());
                    order.dof.push_back(d);
                }
            }
        }
    }
    std::vector<int> boundary;
    std::vector<Run> runs;
    order.first_run = {0};
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        boundary.clear();
        for (const int n : tree.fronts[f].boundary) {
            const auto begin = row.begin() + static_cast<std::ptrdiff_t>(node_dofs) * n;
            boundary.insert(boundary.end(), begin, begin + node_dofs);
        }
        find_runs(boundary, runs);
        order.runs.insert(order.runs.end(), runs.begin(), runs.end());
        order.first_run.push_back(static_cast<int>(order.runs.size()));
        order.largest =
            std::max(order.largest, factor.fronts[f]->pivots + factor.fronts[f]->boundary);
    }
    return order;
}

// x: rows by the order, leading dimension ldx; part: of the largest front.
struct Columns {
    double* x = nullptr;
    int ldx = 0;
    int count = 0;
    double* part = nullptr;
    int ld = 0;

    [[nodiscard]] double* x_at(int row, int c) const {
        return x + static_cast<std::size_t>(c) * ldx + row;
    }
    [[nodiscard]] double* part_at(int row, int c) const {
        return part + static_cast<std::size_t>(c) * ld + row;
    }
};

// x1 <- L11^-1 x1, x2 <- x2 - L21 x1.
void forward(const FrontFactor& front, int first, const Run* runs, const Run* end,
             const Columns& columns) {
    const int k = front.pivots;
    const int m = front.boundary;
    double* x = columns.x_at(first, 0);
    solve_lower(front.panel.get(), k + m, k, x, columns.ldx, columns.count);
    if (m == 0) {
        return;
    }
    cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, m, columns.count, k, 1.0,
                front.panel.get() + k, k + m, x, columns.ldx, 0.0, columns.part, columns.ld);
    for (int c = 0; c < columns.count; ++c) {
        for (const Run* run = runs; run != end; ++run) {
            const double* from = columns.part_at(run->from, c);
            double* to = columns.x_at(run->to, c);
            for (int i = 0; i < run->length; ++i) {
                to[i] -= from[i];
            }
        }
    }
}

// x1 <- L11^-T (x1 - L21^T x2).
void backward(const FrontFactor& front, int first, const Run* runs, const Run* end,
              const Columns& columns) {
    const int k = front.pivots;
    const int m = front.boundary;
    double* x = columns.x_at(first, 0);
    if (m > 0) {
        for (int c = 0; c < columns.count; ++c) {
            std::fill_n(columns.part_at(0, c), m, 0.0); // fixed rows are in no run
            for (const Run* run = runs; run != end; ++run) {
                std::copy_n(columns.x_at(run->to, c), run->length, columns.part_at(run->from, c));
            }
        }
        cblas_dgemm(CblasColMajor, CblasTrans, CblasNoTrans, k, columns.count, m, -1.0,
                    front.panel.get() + k, k + m, columns.part, columns.ld, 1.0, x, columns.ldx);
    }
    solve_lower_transposed(front.panel.get(), k + m, k, x, columns.ldx, columns.count);
}

// Solves columns from..to of rhs into x.
void solve_columns(const Factor& factor, const Order& order, const Eigen::MatrixXd& rhs,
                   Eigen::MatrixXd& x, Eigen::Index from, Eigen::Index to) {
    const auto rows = static_cast<Eigen::Index>(order.dof.size());
    const Eigen::Index count = to - from;
    Eigen::MatrixXd ordered(rows, count);
    Eigen::MatrixXd part(order.largest, count);
    for (Eigen::Index c = 0; c < count; ++c) {
        for (Eigen::Index r = 0; r < rows; ++r) {
            ordered(r, c) = rhs(order.dof[r], from + c);
        }
    }
    const Columns columns{ordered.data(), std::max(static_cast<int>(rows), 1),
                          static_cast<int>(count), part.data(), std::max(order.largest, 1)};
    const auto runs = [&](std::size_t f) { return order.runs.data() + order.first_run[f]; };
    for (std::size_t f = 0; f < factor.fronts.size(); ++f) {
        if (factor.fronts[f]->pivots > 0) {
            forward(*factor.fronts[f], order.first[f], runs(f), runs(f + 1), columns);
        }
    }
    for (std::size_t f = factor.fronts.size(); f-- > 0;) {
        if (factor.fronts[f]->pivots > 0) {
            backward(*factor.fronts[f], order.first[f], runs(f), runs(f + 1), columns);
        }
    }
    for (Eigen::Index c = 0; c < count; ++c) {
        for (Eigen::Index r = 0; r < rows; ++r) {
            x(order.dof[r], from + c) = ordered(r, c);
        }
    }
}

} // namespace

Eigen::MatrixXd solve(const Factor& factor, const Eigen::MatrixXd& rhs, int threads) {
    if (rhs.rows() != static_cast<Eigen::Index>(factor.fixed.size())) {
        throw std::invalid_argument("solve: as many rows as dofs are needed");
    }
    Eigen::MatrixXd x = Eigen::MatrixXd::Zero(rhs.rows(), rhs.cols());
    if (rhs.cols() == 0) {
        return x;
    }
    openblas_set_num_threads(1);
    const Order order = order_rows(factor);
    // Columns are independent: each thread takes a share of them.
    const Eigen::Index parts = std::clamp<Eigen::Index>(threads, 1, rhs.cols());
    std::vector<std::thread> helpers;
    const auto share = [&](Eigen::Index p) {
        solve_columns(factor, order, rhs, x, rhs.cols() * p / parts, rhs.cols() * (p + 1) / parts);
    };
    for (Eigen::Index p = 1; p < parts; ++p) {
        helpers.emplace_back(share, p);
    }
    share(0);
    for (std::thread& helper : helpers) {
        helper.join();
    }
    return x;
}

} // namespace vrid
