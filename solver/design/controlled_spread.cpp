#include "solver/design/controlled_spread.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include <Eigen/Dense>

#include "mesh/board/eigen_names.hpp"

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
    const VectorXd found = controls.colPivHouseholderQr().solve(change);
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
std::array<double, 3> figures_of(const LineFit& fit, const NumberLimits& limits) {
    return {fit.mean(), std::sqrt(fit.variance()), yield_of(fit, limits)};
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

std::array<double, 3> jackknife_errors(const LinearModel& model, const VectorXd& t,
                                       const VectorXd& y, const NumberLimits& limits) {
    constexpr Index most_groups = 48;
    const Index groups = std::min(t.size(), most_groups);
    std::vector<std::array<double, 3>> without;
    for (Index group = 0; group < groups; ++group) {
        std::vector<Index> kept;
        for (Index i = 0; i < t.size(); ++i) {
            if (i % groups != group) {
                kept.push_back(i);
            }
        }
        without.push_back(figures_of(fit_of(model, t(kept), y(kept)), limits));
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

ControlledSpread controlled_spread(const LinearModel& model, const std::vector<double>& t,
                                   const std::vector<double>& y, const NumberLimits& limits) {
    assert(t.size() == y.size() && y.size() >= least_controlled);
    const auto count = static_cast<Index>(y.size());
    const VectorXd controls = Eigen::Map<const VectorXd>(t.data(), count);
    const VectorXd values = Eigen::Map<const VectorXd>(y.data(), count);
    const LineFit fit = fit_of(model, controls, values);
    const auto figures = figures_of(fit, limits);
    const auto errors = jackknife_errors(model, controls, values, limits);
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
