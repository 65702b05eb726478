#include <algorithm>
#include <stdexcept>
#include <thread>

#include <cblas.h>

#include "solver/system/dense_front.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

namespace {

// Rows of a front in the global numbering: free pivots, then the boundary with -1 for fixed ones.
void list_rows(const Factor& factor, std::size_t f, std::vector<int>& rows) {
    rows.clear();
    const EliminationFront& front = factor.tree->fronts[f];
    for (const int n : front.pivots) {
        for (int d = node_dofs * n; d < node_dofs * (n + 1); ++d) {
            if (factor.fixed[d] == 0) {
                rows.push_back(d);
            }
        }
    }
    for (const int n : front.boundary) {
        for (int d = node_dofs * n; d < node_dofs * (n + 1); ++d) {
            rows.push_back(factor.fixed[d] == 0 ? d : -1);
        }
    }
}

using Columns = Eigen::Ref<Eigen::MatrixXd>;

void forward(const Factor& factor, std::size_t f, Columns& x, const std::vector<int>& rows,
             Eigen::MatrixXd& part) {
    const FrontFactor& front = *factor.fronts[f];
    const int k = front.pivots;
    const int m = front.boundary;
    const int columns = static_cast<int>(x.cols());
    for (int c = 0; c < columns; ++c) {
        for (int i = 0; i < k; ++i) {
            part(i, c) = x(rows[i], c);
        }
    }
    const int ld = static_cast<int>(part.rows());
    solve_lower(front.panel.get(), k + m, k, part.data(), ld, columns);
    if (m > 0) {
        cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, m, columns, k, 1.0,
                    front.panel.get() + k, k + m, part.data(), ld, 0.0, part.data() + k, ld);
    }
    for (int c = 0; c < columns; ++c) {
        for (int i = 0; i < k; ++i) {
            x(rows[i], c) = part(i, c);
        }
        for (int i = k; i < k + m; ++i) {
            if (rows[i] >= 0) {
                x(rows[i], c) -= part(i, c);
            }
        }
    }
}

void backward(const Factor& factor, std::size_t f, Columns& x, const std::vector<int>& rows,
              Eigen::MatrixXd& part) {
    const FrontFactor& front = *factor.fronts[f];
    const int k = front.pivots;
    const int m = front.boundary;
    const int columns = static_cast<int>(x.cols());
    for (int c = 0; c < columns; ++c) {
        for (int i = 0; i < k + m; ++i) {
            part(i, c) = rows[i] >= 0 ? x(rows[i], c) : 0.0;
        }
    }
    const int ld = static_cast<int>(part.rows());
    if (m > 0) {
        cblas_dgemm(CblasColMajor, CblasTrans, CblasNoTrans, k, columns, m, -1.0,
                    front.panel.get() + k, k + m, part.data() + k, ld, 1.0, part.data(), ld);
    }
    solve_lower_transposed(front.panel.get(), k + m, k, part.data(), ld, columns);
    for (int c = 0; c < columns; ++c) {
        for (int i = 0; i < k; ++i) {
            x(rows[i], c) = part(i, c);
        }
    }
}

void solve_columns(const Factor& factor, Columns& x) {
    int largest = 0;
    for (const auto& front : factor.fronts) {
        largest = std::max(largest, front->pivots + front->boundary);
    }
    Eigen::MatrixXd part(largest, x.cols());
    std::vector<int> rows;
    for (std::size_t f = 0; f < factor.fronts.size(); ++f) {
        if (factor.fronts[f]->pivots > 0) {
            list_rows(factor, f, rows);
            forward(factor, f, x, rows, part);
        }
    }
    for (std::size_t f = factor.fronts.size(); f-- > 0;) {
        if (factor.fronts[f]->pivots > 0) {
            list_rows(factor, f, rows);
            backward(factor, f, x, rows, part);
        }
    }
}

} // namespace

Eigen::MatrixXd solve(const Factor& factor, const Eigen::MatrixXd& rhs, int threads) {
    if (rhs.rows() != static_cast<Eigen::Index>(factor.fixed.size())) {
        throw std::invalid_argument("solve: as many rows as dofs are needed");
    }
    openblas_set_num_threads(1);
    Eigen::MatrixXd x = rhs;
    for (Eigen::Index d = 0; d < x.rows(); ++d) {
        if (factor.fixed[d] != 0) {
            x.row(d).setZero();
        }
    }
    // Columns are independent: each thread takes a share of them.
    const Eigen::Index parts =
        std::clamp<Eigen::Index>(threads, 1, std::max<Eigen::Index>(1, x.cols()));
    std::vector<std::thread> helpers;
    const auto share = [&](Eigen::Index p) {
        const Eigen::Index from = x.cols() * p / parts;
        const Eigen::Index to = x.cols() * (p + 1) / parts;
        Columns columns = x.middleCols(from, to - from);
        solve_columns(factor, columns);
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
