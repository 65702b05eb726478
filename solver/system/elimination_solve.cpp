#include <algorithm>
#include <cassert>
#include <numeric>
#include <stdexcept>
#include <utility>

#include <cblas.h>

#include "solver/system/dense_front.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/elimination_order.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

// Columns that belong to one factor: rows by its order, leading dimension ldx.
struct RightColumns {
    const Factor* factor = nullptr;
    double* x = nullptr;
    int ldx = 0;
    int count = 0;

    [[nodiscard]] double* x_at(int row, int c) const {
        return x + static_cast<std::size_t>(c) * ldx + row;
    }
    [[nodiscard]] double* pivots(std::size_t f) const { return x_at(factor->order->first[f], 0); }
};

// Columns of one front's rows, gathered; leading dimension ld.
struct Part {
    std::vector<double> x;
    int ld = 1;

    [[nodiscard]] double* at(int c) { return x.data() + static_cast<std::size_t>(c) * ld; }
};

// A front that one or more factors have in common.
class CommonFront {
  public:
    CommonFront(std::size_t f, const FrontFactor& front) : f_(f), front_(&front) {}
    void add(RightColumns& columns) {
        all_.push_back(&columns);
        count_ += columns.count;
    }
    [[nodiscard]] bool is(const FrontFactor& front) const { return &front == front_; }

    // x1 <- L11^-1 x1, x2 <- x2 - L21 x1.
    void forward(Part& own, Part& boundary) const {
        const auto [x, ldx] = gathered(own);
        const int k = front_->pivots;
        const int m = front_->boundary;
        solve_lower(front_->panel.get(), k + m, k, x, ldx, count_);
        if (m > 0) {
            cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, m, count_, k, 1.0,
                        front_->panel.get() + k, k + m, x, ldx, 0.0, boundary.at(0), boundary.ld);
            each_run([&](const Run& run, int c, double* to) {
                const double* from = boundary.at(c) + run.from;
                for (int i = 0; i < run.length; ++i) {
                    to[i] -= from[i];
                }
            });
        }
        scatter(own);
    }

    // x1 <- L11^-T (x1 - L21^T x2).
    void backward(Part& own, Part& boundary) const {
        const auto [x, ldx] = gathered(own);
        const int k = front_->pivots;
        const int m = front_->boundary;
        if (m > 0) {
            for (int c = 0; c < count_; ++c) {
                std::fill_n(boundary.at(c), m, 0.0); // fixed rows are in no run
            }
            each_run([&](const Run& run, int c, const double* from) {
                std::copy_n(from, run.length, boundary.at(c) + run.from);
            });
            cblas_dgemm(CblasColMajor, CblasTrans, CblasNoTrans, k, count_, m, -1.0,
                        front_->panel.get() + k, k + m, boundary.at(0), boundary.ld, 1.0, x, ldx);
        }
        solve_lower_transposed(front_->panel.get(), k + m, k, x, ldx, count_);
        scatter(own);
    }

  private:
    // work(run, column of all, where the run's rows begin in that column)
    template <class Work> void each_run(Work work) const {
        int column = 0;
        for (const RightColumns* columns : all_) {
            const EliminationOrder& order = *columns->factor->order;
            for (int c = 0; c < columns->count; ++c, ++column) {
                for (int r = order.first_run[f_]; r < order.first_run[f_ + 1]; ++r) {
                    work(order.runs[r], column, columns->x_at(order.runs[r].to, c));
                }
            }
        }
    }

    // One factor's columns stay where they are.
    [[nodiscard]] std::pair<double*, int> gathered(Part& own) const {
        if (all_.size() == 1) {
            return {all_.front()->pivots(f_), all_.front()->ldx};
        }
        int column = 0;
        for (const RightColumns* columns : all_) {
            for (int c = 0; c < columns->count; ++c) {
                std::copy_n(columns->pivots(f_) + static_cast<std::size_t>(c) * columns->ldx,
                            front_->pivots, own.at(column++));
            }
        }
        return {own.at(0), own.ld};
    }

    void scatter(Part& own) const {
        int column = 0;
        for (std::size_t i = 0; i < all_.size() && all_.size() > 1; ++i) {
            for (int c = 0; c < all_[i]->count; ++c) {
                std::copy_n(own.at(column++), front_->pivots,
                            all_[i]->pivots(f_) + static_cast<std::size_t>(c) * all_[i]->ldx);
            }
        }
    }

    std::size_t f_;
    const FrontFactor* front_;
    std::vector<RightColumns*> all_;
    int count_ = 0;
};

std::vector<CommonFront> common_fronts(std::size_t f, std::vector<RightColumns>& all) {
    std::vector<CommonFront> fronts;
    for (RightColumns& columns : all) {
        const FrontFactor& front = *columns.factor->fronts[f];
        if (front.pivots == 0) {
            continue;
        }
        auto same =
            std::ranges::find_if(fronts, [&](const CommonFront& other) { return other.is(front); });
        if (same == fronts.end()) {
            same = fronts.insert(fronts.end(), CommonFront(f, front));
        }
        same->add(columns);
    }
    return fronts;
}

// Some columns of rhs (`which`) into x, factor by factor.
void solve_columns(const std::vector<const Factor*>& factors,
                   const std::vector<Eigen::Index>& which, const Eigen::MatrixXd& rhs,
                   Eigen::MatrixXd& x) {
    std::size_t largest = 1;
    std::vector<RightColumns> all;
    std::size_t numbers = 0;
    for (const Eigen::Index c : which) {
        const EliminationOrder& order = *factors[c]->order;
        if (all.empty() || all.back().factor != factors[c]) {
            all.push_back(
                {factors[c], nullptr, std::max(static_cast<int>(order.dof.size()), 1), 0});
            largest = std::max(largest, static_cast<std::size_t>(order.largest));
        }
        ++all.back().count;
        numbers += all.back().ldx;
    }
    std::vector<double> ordered(numbers);
    double* place = ordered.data();
    std::size_t next = 0;
    for (RightColumns& columns : all) {
        columns.x = place;
        place += static_cast<std::size_t>(columns.count) * columns.ldx;
        const std::vector<int>& dof = columns.factor->order->dof;
        for (int c = 0; c < columns.count; ++c, ++next) {
            for (std::size_t r = 0; r < dof.size(); ++r) {
                columns.x_at(0, c)[r] = rhs(dof[r], which[next]);
            }
        }
    }
    Part own{std::vector<double>(largest * which.size()), static_cast<int>(largest)};
    Part boundary = own;
    const std::size_t fronts = all.front().factor->fronts.size();
    for (std::size_t f = 0; f < fronts; ++f) {
        for (const CommonFront& front : common_fronts(f, all)) {
            front.forward(own, boundary);
        }
    }
    for (std::size_t f = fronts; f-- > 0;) {
        for (const CommonFront& front : common_fronts(f, all)) {
            front.backward(own, boundary);
        }
    }
    next = 0;
    for (const RightColumns& columns : all) {
        const std::vector<int>& dof = columns.factor->order->dof;
        for (int c = 0; c < columns.count; ++c, ++next) {
            for (std::size_t r = 0; r < dof.size(); ++r) {
                x(dof[r], which[next]) = columns.x_at(0, c)[r];
            }
        }
    }
}

// Columns with the same factor side by side.
std::vector<Eigen::Index> by_factor(const std::vector<const Factor*>& factors) {
    std::vector<Eigen::Index> which(factors.size());
    std::iota(which.begin(), which.end(), 0);
    const auto first = [&](Eigen::Index c) {
        return std::ranges::find(factors, factors[c]) - factors.begin();
    };
    std::ranges::stable_sort(which,
                             [&](Eigen::Index a, Eigen::Index b) { return first(a) < first(b); });
    return which;
}

} // namespace

Eigen::MatrixXd solve(const std::vector<const Factor*>& factors, const Eigen::MatrixXd& rhs,
                      int threads) {
    assert(rhs.cols() == static_cast<Eigen::Index>(factors.size()));
    for (const Factor* factor : factors) {
        if (rhs.rows() != static_cast<Eigen::Index>(factor->fixed.size())) {
            throw std::invalid_argument("solve: as many rows as dofs are needed");
        }
        assert(factor->tree == factors.front()->tree);
    }
    Eigen::MatrixXd x = Eigen::MatrixXd::Zero(rhs.rows(), rhs.cols());
    if (rhs.cols() == 0) {
        return x;
    }
    // Columns are independent: each thread takes a share of them.
    const std::vector<Eigen::Index> which = by_factor(factors);
    const std::ptrdiff_t count = rhs.cols();
    const auto parts = static_cast<int>(std::clamp<std::ptrdiff_t>(threads, 1, count));
    for_each_in_parallel(parts, parts, [&](int p) {
        solve_columns(factors,
                      {which.begin() + count * p / parts, which.begin() + count * (p + 1) / parts},
                      rhs, x);
    });
    return x;
}

Eigen::MatrixXd solve(const Factor& factor, const Eigen::MatrixXd& rhs, int threads) {
    return solve(std::vector<const Factor*>(static_cast<std::size_t>(rhs.cols()), &factor), rhs,
                 threads);
}

} // namespace vrid
