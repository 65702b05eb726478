#include "solver/design/controlled_spread.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "mesh/board/eigen_names.hpp"
#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

/// y = at + slope t + bend t^2 + one of the rests, t standard normal.
struct LineFit {
    double at = 0, slope = 0, bend = 0;
    VectorXd rest; ///< as large as the degrees of freedom that the fit took would have them

    [[nodiscard]] double mean() const { return at + bend; }
    [[nodiscard]] double variance() const {
        return slope * slope + 2 * bend * bend +
               rest.squaredNorm() / static_cast<double>(rest.size());
    }
    [[nodiscard]] double below(double value) const;
};

/// Share of t with slope t + bend t^2 <= height.
double share_below(double slope, double bend, double height) {
    const double straight = std::abs(slope);
    const double discriminant = slope * slope + 4 * bend * height;
    if (discriminant < 0 || (straight == 0 && bend == 0)) { // the parabola does not reach it
        return (bend == 0 ? height >= 0 : bend < 0) ? 1 : 0;
    }
    const double q = straight + std::sqrt(discriminant); // t counted along the slope
    const double near = q == 0 ? 0 : 2 * height / q;
    if (bend == 0) {
        return normal_below(near);
    }
    const double far = -q / (2 * bend);
    const double between = std::abs(normal_below(near) - normal_below(far));
    return bend > 0 ? between : 1 - between;
}

double LineFit::below(double value) const {
    double sum = 0;
    for (const double one : rest) {
        sum += share_below(slope, bend, value - at - one);
    }
    return sum / static_cast<double>(rest.size());
}

/// The samples of a number and its controls.
struct Controlled {
    VectorXd t, across, y; // across: empty if it is not used
    [[nodiscard]] Controlled of(const std::vector<Index>& kept) const {
        return {t(kept), across.size() > 0 ? VectorXd(across(kept)) : across, y(kept)};
    }
};

// What the linear model leaves of the samples, by the controls: a row a sample.
VectorXd coefficients(const MatrixXd& controls, const VectorXd& change) {
    return least_squares(controls, change);
}

// Of y = at + slope t + bend t^2 + c (u^2 - 1) + d t u + rest the mean, at + bend: what two values
// do together is skewed like chi-square, and its mean over some twenty samples is low just where
// their standard error is.
double mean_of_two(const LinearModel& model, const Controlled& of) {
    MatrixXd controls(of.t.size(), 5);
    controls << VectorXd::Ones(of.t.size()), of.t, of.t.cwiseAbs2(),
        of.across.cwiseAbs2().array() - 1, of.t.cwiseProduct(of.across);
    const VectorXd found = coefficients(controls, (of.y - model.sd * of.t).array() - model.mean);
    return model.mean + found(0) + found(2);
}

LineFit fit_of(const LinearModel& model, const VectorXd& t, const VectorXd& y) {
    const Index count = t.size();
    const Index terms = model.sd > 0 ? 3 : 1; // a number that does not follow a line has no t
    MatrixXd controls(count, terms);
    controls.col(0).setOnes();
    if (terms == 3) {
        controls.col(1) = t;
        controls.col(2) = t.cwiseAbs2();
    }
    const VectorXd change = (y - model.sd * t).array() - model.mean;
    const VectorXd found = coefficients(controls, change);
    LineFit fit;
    fit.at = model.mean + found(0);
    fit.slope = model.sd + (terms == 3 ? found(1) : 0);
    fit.bend = terms == 3 ? found(2) : 0;
    fit.rest = (change - controls * found) *
               std::sqrt(static_cast<double>(count) / static_cast<double>(count - terms));
    return fit;
}

double yield_of(const LineFit& fit, const NumberLimits& limits) {
    return (limits.max ? fit.below(*limits.max) : 1) - (limits.min ? fit.below(*limits.min) : 0);
}

/// Mean, deviation, yield.
std::array<double, 3> figures_of(const LinearModel& model, const Controlled& of,
                                 const NumberLimits& limits) {
    const LineFit fit = fit_of(model, of.t, of.y);
    return {of.across.size() > 0 ? mean_of_two(model, of) : fit.mean(), std::sqrt(fit.variance()),
            yield_of(fit, limits)};
}

double value_below_which(const LineFit& fit, double share) {
    const double sd = std::sqrt(fit.variance());
    constexpr double far = 40; // deviations: beyond any share that is asked for
    double low = fit.mean() - far * sd;
    double high = fit.mean() + far * sd;
    constexpr int halvings = 60;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (fit.below(middle) < share ? low : high) = middle;
    }
    return (low + high) / 2;
}

std::array<double, 3> jackknife_errors(const LinearModel& model, const Controlled& of,
                                       const NumberLimits& limits) {
    constexpr Index most_groups = 48;
    const Index groups = std::min(of.t.size(), most_groups);
    std::vector<std::array<double, 3>> without;
    for (Index group = 0; group < groups; ++group) {
        std::vector<Index> kept;
        for (Index i = 0; i < of.t.size(); ++i) {
            if (i % groups != group) {
                kept.push_back(i);
            }
        }
        without.push_back(figures_of(model, of.of(kept), limits));
    }
    const auto count = static_cast<double>(groups);
    std::array<double, 3> errors{};
    for (std::size_t k = 0; k < errors.size(); ++k) {
        double mean = 0;
        for (const auto& one : without) {
            mean += one[k] / count;
        }
        double squares = 0;
        for (const auto& one : without) {
            squares += (one[k] - mean) * (one[k] - mean);
        }
        errors[k] = std::sqrt((count - 1) / count * squares);
    }
    return errors;
}

} // namespace

double normal_below(double z) {
    return std::erfc(-z / std::sqrt(2.0)) / 2;
}

Eigen::VectorXd across_two(const Eigen::VectorXd& along) {
    if (along.size() < 2) {
        return {};
    }
    Index first = 0;
    along.cwiseAbs().maxCoeff(&first);
    VectorXd others = along.cwiseAbs();
    others(first) = -1;
    Index second = 0;
    others.maxCoeff(&second);
    const double both = std::hypot(along(first), along(second));
    if (!(both * both >= 0.5)) {
        return {};
    }
    VectorXd across = VectorXd::Zero(along.size());
    across(first) = along(second) / both;
    across(second) = -along(first) / both;
    return across;
}

ControlledSpread controlled_spread(const LinearModel& model, const std::vector<double>& t,
                                   const std::vector<double>& y, const NumberLimits& limits,
                                   const std::vector<double>& across) {
    assert(t.size() == y.size() && y.size() >= least_controlled);
    constexpr std::size_t fewest = 16; // to find five terms from
    const auto vector = [](const std::vector<double>& list) {
        return VectorXd(Eigen::Map<const VectorXd>(list.data(), static_cast<Index>(list.size())));
    };
    const bool two = model.sd > 0 && across.size() == y.size() && y.size() >= fewest;
    const Controlled of{vector(t), two ? vector(across) : VectorXd(), vector(y)};
    const LineFit fit = fit_of(model, of.t, of.y);
    const auto figures = figures_of(model, of, limits);
    const auto errors = jackknife_errors(model, of, limits);
    ControlledSpread spread;
    spread.mean = {figures[0], errors[0]};
    spread.sd = {figures[1], errors[1]};
    if (limits.min || limits.max) {
        spread.yield = {std::clamp(figures[2], 0.0, 1.0), errors[2]};
    }
    spread.p5 = value_below_which(fit, 0.05);
    spread.p50 = value_below_which(fit, 0.5);
    spread.p95 = value_below_which(fit, 0.95);
    constexpr double rounding = 1e-9; // errors below that of the deviation bound nothing
    if (spread.sd.error > rounding * spread.sd.value) {
        const double ratio = spread.sd.value / spread.sd.error;
        spread.plain_samples = ratio * ratio / 2; // of a normal one: error^2 = sd^2 / (2 samples)
    }
    return spread;
}

} // namespace vrid
