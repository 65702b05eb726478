#include "solver/lot/moved.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Cholesky>

#include "solver/lot/tails.hpp"

namespace vrid {

namespace {

constexpr double badly_apart = 0.9;
constexpr std::size_t most_listed = 20;
constexpr std::size_t largest_set = 3;

// The least-squares problem whitened: columns of free values, each for a shift of one deviation.
struct Whitened {
    MatrixXd A;       // k x free
    VectorXd b;       // k
    MatrixXd product; // A^T A
    VectorXd right;   // A^T b
    double all = 0;   // b^T b
};

Whitened whitened(const LotModel& model, const LotCentre& centre) {
    MatrixXd C = centre.covariance;
    C.diagonal() += model.bias_sd.cwiseAbs2();
    const VectorXd inverse = C.diagonal().cwiseSqrt().cwiseInverse();
    const Eigen::LLT<MatrixXd> factor(inverse.asDiagonal() * C * inverse.asDiagonal());
    const VectorXd sd = model.value_sd(model.free);
    Whitened w;
    w.A = factor.matrixL().solve(inverse.asDiagonal() * model.slopes(Eigen::all, model.free) *
                                 sd.asDiagonal());
    w.b = factor.matrixL().solve(inverse.asDiagonal() * centre.mean);
    w.product = w.A.transpose() * w.A;
    w.right = w.A.transpose() * w.b;
    w.all = w.b.squaredNorm();
    return w;
}

struct SetFit {
    VectorXd shift, sd; // in deviations of the values
    double misfit = 0;
};

bool fit_set(const Whitened& w, const std::vector<Index>& set, SetFit& fit) {
    constexpr double singular = 1e-6; // of a correlation matrix's pivots
    const MatrixXd product = w.product(set, set);
    const VectorXd scale = product.diagonal().cwiseSqrt();
    if (scale.minCoeff() <= 0) {
        return false;
    }
    const VectorXd inverse = scale.cwiseInverse();
    const Eigen::LLT<MatrixXd> factor(inverse.asDiagonal() * product * inverse.asDiagonal());
    if (factor.info() != Eigen::Success ||
        factor.matrixLLT().diagonal().cwiseAbs2().minCoeff() < singular) {
        return false;
    }
    const VectorXd right = inverse.cwiseProduct(w.right(set));
    fit.shift = inverse.cwiseProduct(factor.solve(right));
    fit.sd = inverse.cwiseProduct(
        factor.solve(MatrixXd::Identity(scale.size(), scale.size())).diagonal().cwiseSqrt());
    fit.misfit = std::max(0.0, w.all - fit.shift.dot(w.right(set)));
    return true;
}

LotExplanation explanation_of(const LotModel& model, const SetFit& fit,
                              const std::vector<Index>& set, Index numbers) {
    LotExplanation explanation;
    const auto degrees = static_cast<double>(numbers - static_cast<Index>(set.size()));
    explanation.p = degrees > 0 ? chi2_tail(fit.misfit, degrees) : 1;
    for (std::size_t i = 0; i < set.size(); ++i) {
        const Index value = model.free[static_cast<std::size_t>(set[i])];
        const double s = model.value_sd(value);
        explanation.shifts.push_back(
            {value, s * fit.shift(static_cast<Index>(i)), s * fit.sd(static_cast<Index>(i))});
    }
    return explanation;
}

struct Ranked {
    double size = 0; // sum (shift / s)^2
    LotExplanation explanation;
};

// Calls `see` with every set of `size` of `count` things.
template <typename See>
void for_each_set(Index count, std::size_t size, std::vector<Index>& set, const See& see) {
    if (set.size() == size) {
        see(set);
        return;
    }
    for (Index i = set.empty() ? 0 : set.back() + 1; i < count; ++i) {
        set.push_back(i);
        for_each_set(count, size, set, see);
        set.pop_back();
    }
}

bool all_can_move(const LotModel& model, const std::vector<Index>& set, const SetFit& fit) {
    for (std::size_t i = 0; i < set.size(); ++i) {
        const Index value = model.free[static_cast<std::size_t>(set[i])];
        if (!can_move(model, value, model.value_sd(value) * fit.shift(static_cast<Index>(i)))) {
            return false;
        }
    }
    return true;
}

// Those of one size that fit, the smallest shifts first; `nearest` keeps the best of the others.
std::vector<Ranked> sets_that_fit(const LotModel& model, const Whitened& w, std::size_t size,
                                  LotExplanation& nearest) {
    std::vector<Ranked> fitting;
    const double limit =
        chi2_quantile(1 - as_predicted, static_cast<double>(w.b.size() - static_cast<Index>(size)));
    double least = HUGE_VAL;
    SetFit fit;
    std::vector<Index> set;
    const auto by_size = [](const Ranked& a, const Ranked& b) { return a.size < b.size; };
    for_each_set(w.A.cols(), size, set, [&](const std::vector<Index>& values) {
        if (!fit_set(w, values, fit) || !all_can_move(model, values, fit)) {
            return;
        }
        if (fit.misfit < limit) {
            fitting.push_back(
                {fit.shift.squaredNorm(), explanation_of(model, fit, values, w.b.size())});
            if (fitting.size() > 100 * most_listed) { // of many the best are kept
                std::ranges::stable_sort(fitting, by_size);
                fitting.resize(most_listed);
            }
        } else if (fit.misfit < least) {
            least = fit.misfit;
            nearest = explanation_of(model, fit, values, w.b.size());
        }
    });
    std::ranges::stable_sort(fitting, by_size);
    return fitting;
}

void add_held(LotMoved& moved, const LotModel& model, const Whitened& w) {
    MatrixXd information = w.product;
    information.diagonal().array() += 1; // each held by its own deviation
    const Eigen::LLT<MatrixXd> factor(information);
    const VectorXd shift = factor.solve(w.right);
    const VectorXd sd =
        factor.solve(MatrixXd::Identity(shift.size(), shift.size())).diagonal().cwiseSqrt();
    for (Index i = 0; i < shift.size(); ++i) {
        const Index value = model.free[static_cast<std::size_t>(i)];
        const double s = model.value_sd(value);
        moved.held.push_back({value, s * shift(i), s * sd(i)});
    }
    for (Index i = 0; i < shift.size(); ++i) {
        for (Index j = i + 1; j < shift.size(); ++j) {
            const double lengths = std::sqrt(w.product(i, i) * w.product(j, j));
            if (lengths > 0 && std::abs(w.product(i, j)) > badly_apart * lengths) {
                moved.alike.emplace_back(model.free[static_cast<std::size_t>(i)],
                                         model.free[static_cast<std::size_t>(j)]);
            }
        }
    }
}

} // namespace

LotMoved lot_moved(const LotModel& model, const LotCentre& centre) {
    const Whitened w = whitened(model, centre);
    LotMoved moved;
    moved.statistic = w.all;
    moved.degrees = static_cast<int>(w.b.size());
    moved.p = chi2_tail(moved.statistic, moved.degrees);
    add_held(moved, model, w);
    if (moved.p > as_predicted) {
        return moved;
    }
    const std::size_t most = std::min(largest_set, static_cast<std::size_t>(w.b.size() - 1));
    LotExplanation nearest;
    for (std::size_t size = 1; size <= most && !moved.explained; ++size) {
        for (Ranked& one : sets_that_fit(model, w, size, nearest)) {
            moved.explained = true;
            if (moved.explanations.size() < most_listed) {
                moved.explanations.push_back(std::move(one.explanation));
            }
        }
    }
    if (!moved.explained && !nearest.shifts.empty()) {
        moved.explanations.push_back(nearest);
    }
    return moved;
}

bool shifts_of(const LotModel& model, const LotCentre& centre, const std::vector<Index>& values,
               LotExplanation& explanation) {
    LotModel some = model;
    some.free = values;
    const Whitened w = whitened(some, centre);
    std::vector<Index> set(values.size());
    for (std::size_t i = 0; i < set.size(); ++i) {
        set[i] = static_cast<Index>(i);
    }
    SetFit fit;
    if (!fit_set(w, set, fit)) {
        return false;
    }
    explanation = explanation_of(some, fit, set, w.b.size());
    return true;
}

} // namespace vrid
