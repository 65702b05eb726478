#include "solver/lot/plan.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <Eigen/Cholesky>

#include "mesh/board/lists.hpp"
#include "solver/lot/tails.hpp"
#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

constexpr double alpha = 0.025; // of one side
constexpr double beta = 0.1;
constexpr double most_boards = 1e6;

// Free values' columns over what a board scatters by, each for one deviation: k x free.
MatrixXd whitened_columns(const LotModel& model) {
    MatrixXd S = board_covariance(model);
    S.diagonal() += model.rig_sd.cwiseAbs2();
    const VectorXd inverse = S.diagonal().cwiseSqrt().cwiseInverse();
    const Eigen::LLT<MatrixXd> factor(inverse.asDiagonal() * S * inverse.asDiagonal());
    const VectorXd sd = model.value_sd(model.free);
    return factor.matrixL().solve(inverse.asDiagonal() * model.slopes(Eigen::all, model.free) *
                                  sd.asDiagonal());
}

// Variance of the shift of value i after n boards, the others held by their deviations alone: of
// whitened columns, 1 / (a^T (I / n + B B^T)^-1 a).
double variance_after(const MatrixXd& columns, Index i, double n) {
    MatrixXd others = columns * columns.transpose();
    others -= columns.col(i) * columns.col(i).transpose();
    others.diagonal().array() += 1 / n;
    return 1 / columns.col(i).dot(solve_symmetric(others, columns.col(i)).col(0));
}

std::optional<double> boards_with_all(const MatrixXd& columns, Index i, double factor) {
    const auto enough = [&](double n) { return factor * variance_after(columns, i, n) <= 1; };
    if (!enough(most_boards)) {
        return std::nullopt;
    }
    double low = 1;
    double high = most_boards;
    while (high - low > 0.5) {
        const double middle = (low + high) / 2;
        (enough(middle) ? high : low) = middle;
    }
    return enough(1) ? 1 : std::ceil(high);
}

LotModel with_readings(const LotModel& model, const Candidates& candidates,
                       const std::vector<Index>& readings) {
    LotModel more = model;
    const Index k = model.slopes.rows();
    const auto add = static_cast<Index>(readings.size());
    more.slopes.conservativeResize(k + add, Eigen::NoChange);
    more.rig_sd.conservativeResize(k + add);
    for (Index i = 0; i < add; ++i) {
        const Index at = readings[static_cast<std::size_t>(i)];
        more.slopes.row(k + i) = candidates.slopes.row(at);
        more.rig_sd(k + i) = candidates.rig_sd(at);
    }
    return more;
}

Index place_of(const LotModel& model, Index value) {
    return static_cast<Index>(std::ranges::find(model.free, value) - model.free.begin());
}

// By what the readings span, k of them, instead of all free values: with columns C and
// K = I / n + C C^T, the variances are I - C^T K^-1 C and ln det (I + n C^T C) = ln det (n K).
NextReadings judged(const LotModel& model, const std::vector<Index>& readings,
                    const PlanOptions& options) {
    const MatrixXd C = whitened_columns(model);
    const MatrixXd product = C * C.transpose();
    MatrixXd K = product;
    K.diagonal().array() += 1 / options.boards;
    const Eigen::LLT<MatrixXd> factor(K);
    NextReadings next{readings, 0, 0, {}};
    if (options.interest.empty()) {
        next.D = 2 * factor.matrixLLT().diagonal().array().log().sum() +
                 static_cast<double>(K.rows()) * std::log(options.boards);
        next.A = static_cast<double>(C.cols()) - factor.solve(product).trace();
    } else {
        const std::vector<Index> places =
            each_of(options.interest, [&](const Index value) { return place_of(model, value); });
        const MatrixXd some = C(Eigen::all, places);
        MatrixXd P = -some.transpose() * factor.solve(some);
        P.diagonal().array() += 1;
        next.D = -2 * Eigen::LLT<MatrixXd>(P).matrixLLT().diagonal().array().log().sum();
        next.A = P.trace();
    }
    if (options.rivals) {
        const auto a = C.col(place_of(model, options.rivals->first));
        const auto b = C.col(place_of(model, options.rivals->second));
        const VectorXd apart = a.dot(b) < 0 ? VectorXd(a + b) : VectorXd(a - b);
        next.rivals = 2 - apart.dot(factor.solve(apart));
    }
    return next;
}

} // namespace

double readings_needed(double shift_over_sd, double one_side, double missed) {
    const double z = normal_quantile(1 - one_side) + normal_quantile(1 - missed);
    return z * z / (shift_over_sd * shift_over_sd);
}

std::vector<BoardsNeeded> boards_needed(const LotModel& model) {
    const MatrixXd columns = whitened_columns(model);
    const double factor = readings_needed(1, alpha, beta);
    std::vector<BoardsNeeded> all;
    for (Index i = 0; i < columns.cols(); ++i) {
        const double q = columns.col(i).squaredNorm();
        if (q > 0) {
            all.push_back({model.free[static_cast<std::size_t>(i)], std::ceil(factor / q),
                           boards_with_all(columns, i, factor)});
        }
    }
    return all;
}

std::vector<Index> strongest_values(const LotModel& model, std::size_t count) {
    const VectorXd effect = whitened_columns(model).colwise().squaredNorm();
    std::vector<Index> order(model.free.size());
    std::iota(order.begin(), order.end(), Index{0});
    std::ranges::stable_sort(order, [&](Index a, Index b) { return effect(a) > effect(b); });
    order.resize(std::min(count, order.size()));
    for (Index& value : order) {
        value = model.free[static_cast<std::size_t>(value)];
    }
    return order;
}

std::vector<NextReadings> next_readings(const LotModel& model, const Candidates& candidates,
                                        const PlanOptions& options) {
    constexpr std::size_t best = 5;
    const NextReadings now = judged(model, {}, options);
    std::vector<NextReadings> all;
    const auto add = [&](const std::vector<Index>& readings) {
        all.push_back(judged(with_readings(model, candidates, readings), readings, options));
        all.back().D -= now.D;
    };
    for (Index a = 0; a < candidates.slopes.rows(); ++a) {
        add({a});
        for (Index b = 0; b < a; ++b) {
            add({b, a});
        }
    }
    std::ranges::stable_sort(all, [](const NextReadings& a, const NextReadings& b) {
        return a.rivals && *a.rivals != *b.rivals ? *a.rivals < *b.rivals : a.A < b.A;
    });
    all.resize(std::min(best, all.size()));
    all.insert(all.begin(), now);
    all.front().D = 0;
    return all;
}

} // namespace vrid
