#include "solver/design/local_model.hpp"

#include <algorithm>
#include <cmath>

#include "solver/response/error_bar.hpp"

namespace vrid {

namespace {

constexpr double least_measure = -1e5; // of a bound at or below zero, where no stiffness is

bool follows_power(const MatchProblem& problem, std::size_t number, std::size_t i) {
    return problem.measures[number].logarithmic && problem.values[i].ratio;
}

double bound_measure(const Measure& measure, double bound) {
    return measure.logarithmic && bound <= 0 ? least_measure : measure.of(bound);
}

// The windows, each drawn in by the bar at either end, by nine tenths of its width at most.
void draw_in(const MatchProblem& problem, const std::vector<Quantity>& numbers, double bars,
             LocalModel& model) {
    const auto count = static_cast<Index>(problem.windows.size());
    model.low.resize(count);
    model.high.resize(count);
    for (Index j = 0; j < count; ++j) {
        const Window& window = problem.windows[static_cast<std::size_t>(j)];
        const Measure& measure = problem.measures[window.number];
        const Quantity& number = numbers[window.number];
        constexpr double most = 0.45;  // of the width, at either end
        constexpr double least = 1e-3; // percent: the optimiser ends on the very edge
        const double low = bound_measure(measure, window.low);
        const double high = bound_measure(measure, window.high);
        const double bar = number.error < no_bar ? bars * number.error : 0; // not known: no margin
        const auto margin = [&](double bound, double drawn_in) { // exact: the measure is curved
            const double way =
                std::abs(bound_measure(measure, drawn_in) - bound_measure(measure, bound));
            return std::min(std::isfinite(bound) ? std::max(way, least) : 0, most * (high - low));
        };
        model.low[j] = low + margin(window.low, window.low + bar);
        model.high[j] = high - margin(window.high, window.high - bar);
    }
}

} // namespace

LocalModel local_model(const MatchProblem& problem, const Eigen::VectorXd& centre,
                       const NumbersAt& found, const Eigen::MatrixXd& curvature, double bars) {
    LocalModel model;
    model.centre = centre;
    model.measures.resize(static_cast<Index>(problem.numbers.size()));
    model.slopes = found.slopes;
    model.curvature = curvature;
    for (std::size_t k = 0; k < problem.numbers.size(); ++k) {
        const auto row = static_cast<Index>(k);
        const Measure& measure = problem.measures[k];
        model.measures[row] = measure.of(found.numbers[k].value);
        model.slopes.row(row) *= measure.slope(found.numbers[k].value);
    }
    draw_in(problem, found.numbers, bars, model);
    return model;
}

double addition(const MatchProblem& problem, const LocalModel& model, std::size_t number,
                std::size_t i, double value) {
    const auto row = static_cast<Index>(number);
    const auto column = static_cast<Index>(i);
    const double centre = model.centre[column];
    const double way = value - centre;
    if (follows_power(problem, number, i)) {
        return model.slopes(row, column) * centre * std::log(value / centre);
    }
    return (model.slopes(row, column) + 0.5 * model.curvature(row, column) * way) * way;
}

double addition_slope(const MatchProblem& problem, const LocalModel& model, std::size_t number,
                      std::size_t i, double value) {
    const auto row = static_cast<Index>(number);
    const auto column = static_cast<Index>(i);
    const double centre = model.centre[column];
    if (follows_power(problem, number, i)) {
        return model.slopes(row, column) * centre / value;
    }
    return model.slopes(row, column) + model.curvature(row, column) * (value - centre);
}

Eigen::VectorXd measures_at(const MatchProblem& problem, const LocalModel& model,
                            const Eigen::VectorXd& values) {
    Eigen::VectorXd measures = model.measures;
    for (std::size_t k = 0; k < problem.numbers.size(); ++k) {
        for (std::size_t i = 0; i < problem.values.size(); ++i) {
            measures[static_cast<Index>(k)] +=
                addition(problem, model, k, i, values[static_cast<Index>(i)]);
        }
    }
    return measures;
}

double worst_miss(const MatchProblem& problem, const LocalModel& model,
                  const Eigen::VectorXd& measures) {
    double worst = 0;
    for (std::size_t j = 0; j < problem.windows.size(); ++j) {
        const double found = measures[static_cast<Index>(problem.windows[j].number)];
        const auto at = static_cast<Index>(j);
        worst = std::max({worst, model.low[at] - found, found - model.high[at]});
    }
    return worst;
}

double objective(const MatchProblem& problem, const LocalModel& model,
                 const Eigen::VectorXd& values) {
    if (problem.least == Least::change) {
        return change(problem, values);
    }
    double mass = model.measures[static_cast<Index>(problem.mass)];
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        mass += addition(problem, model, problem.mass, i, values[static_cast<Index>(i)]);
    }
    return mass;
}

} // namespace vrid
