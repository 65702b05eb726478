#include "solver/design/match_problem.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/lists.hpp"
#include "solver/design/design_board.hpp"

namespace vrid {

namespace {

using Kind = NumberId::Kind;

constexpr double percent = 100;
constexpr double position_scale = 0.1; // one millimetre missed counts as one percent [m]

void add_values(MatchProblem& problem, const DesignBoard& design, const Goal& goal) {
    for (std::size_t table = 0; table < goal.free.size(); ++table) {
        const FreeValue& free = goal.free[table];
        for (const DesignId& id : free.ids) {
            const auto found = std::ranges::find(design.values, id, &DesignValue::id);
            if (found == design.values.end()) {
                continue; // moves no number: the angle of the core layer
            }
            MatchValue value;
            value.id = id;
            value.start = found->value;
            value.min = free.min;
            value.max = free.max;
            value.round_to = free.round_to;
            value.step = workshop_step(*found);
            value.table = table;
            value.ratio = value.min > 0 && !found->kind().may_be_zero;
            value.carry = free.carry;
            for (const DesignId& along : free.carry) {
                const auto carried = std::ranges::find(design.values, along, &DesignValue::id);
                value.carried.push_back(carried->value);
            }
            problem.values.push_back(value);
        }
    }
}

// The free value that is this station's thickness.
std::optional<std::size_t> station(const MatchProblem& problem, std::size_t index) {
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        const DesignId& id = problem.values[i].id;
        if (id.kind->property == DesignProperty::core_thickness && id.index == index) {
            return i;
        }
    }
    return std::nullopt;
}

void add_stations(MatchProblem& problem, const Board& board, const Goal& goal) {
    const std::size_t count = board.core ? board.core->thickness.x.size() : 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (const auto value = station(problem, i)) {
            problem.values[*value].station = board.core->thickness.x[i];
        }
    }
    for (std::size_t i = 0; i + 1 < count; ++i) {
        const Profile& core = board.core->thickness;
        SlopeLimit limit{
            station(problem, i), station(problem, i + 1), core.x[i], core.x[i + 1], 0, HUGE_VAL};
        limit.fixed = core.value[limit.left ? i + 1 : i];
        for (const auto& side : {limit.left, limit.right}) {
            if (side) {
                const auto& max_slope = goal.free[problem.values[*side].table].max_slope;
                limit.max = std::min(limit.max, max_slope.value_or(HUGE_VAL));
            }
        }
        if (std::isfinite(limit.max)) {
            problem.slopes.push_back(limit);
        }
    }
}

std::size_t number_index(MatchProblem& problem, const NumberId& request) {
    const auto found =
        std::ranges::find_if(problem.numbers, [&](const NumberId& one) { return one == request; });
    const auto index = static_cast<std::size_t>(found - problem.numbers.begin());
    if (found == problem.numbers.end()) {
        problem.numbers.push_back(request);
    }
    return index;
}

Measure measure(const NumberId& request, double start) {
    const bool stiffness = request.kind == Kind::bench_case || request.kind == Kind::mode ||
                           request.kind == Kind::EI || request.kind == Kind::GJ ||
                           (request.kind == Kind::bent && !is_position(request));
    return {stiffness, is_position(request) || start == 0 ? position_scale : std::abs(start)};
}

Window window(const Target& target, double start, double other) {
    const double wanted = target.kind == Target::Kind::percent   ? start * (1 + target.wanted)
                          : target.kind == Target::Kind::same_as ? other
                                                                 : target.wanted;
    const double within =
        target.within_is_length ? target.within : target.within * std::abs(wanted);
    if (target.kind == Target::Kind::range) {
        return {0, target.min.value_or(-HUGE_VAL), target.max.value_or(HUGE_VAL)};
    }
    return {0, wanted - within, wanted + within};
}

} // namespace

double SlopeLimit::slope(const Eigen::VectorXd& values) const {
    const double a = left ? values[static_cast<Index>(*left)] : fixed;
    const double b = right ? values[static_cast<Index>(*right)] : fixed;
    return (b - a) / (x_right - x_left);
}

double Measure::of(double value) const {
    return percent * (logarithmic ? std::log(value) : value / scale);
}

double Measure::slope(double value) const {
    return percent / (logarithmic ? value : scale);
}

double Measure::value(double measure) const {
    return logarithmic ? std::exp(measure / percent) : measure * scale / percent;
}

Eigen::VectorXd MatchProblem::start() const {
    Eigen::VectorXd all(static_cast<Index>(values.size()));
    for (std::size_t i = 0; i < values.size(); ++i) {
        all[static_cast<Index>(i)] = values[i].start;
    }
    return all;
}

std::vector<DesignId> MatchProblem::ids() const {
    return each_of(values, &MatchValue::id);
}

double MatchValue::carried_at(std::size_t k, double value) const {
    constexpr double read = 1e5; // of a metre
    return value == start ? carried[k] : std::round(carried[k] * value / start * read) / read;
}

SetValues MatchProblem::set(const Eigen::VectorXd& at) const {
    SetValues all;
    std::vector<double> numbers;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double value = at[static_cast<Index>(i)];
        all.ids.push_back(values[i].id);
        numbers.push_back(value);
        for (std::size_t k = 0; k < values[i].carry.size(); ++k) {
            all.ids.push_back(values[i].carry[k]);
            numbers.push_back(values[i].carried_at(k, value));
        }
    }
    all.values = Eigen::Map<Eigen::VectorXd>(numbers.data(), static_cast<Index>(numbers.size()));
    return all;
}

std::vector<LineValue> MatchProblem::lines() const {
    std::vector<LineValue> all;
    for (const MatchValue& value : values) {
        if (value.id.kind->moves_lines) {
            all.push_back({value.id, value.carry});
        }
    }
    return all;
}

MatchProblem match_problem(const Board& board, const Goal& goal) {
    MatchProblem problem;
    problem.least = goal.least;
    add_values(problem, design_board(board), goal);
    add_stations(problem, board, goal);
    for (const Target& target : goal.targets) {
        problem.number_of.push_back(number_index(problem, target.number));
    }
    problem.mass = number_index(problem, {Kind::mass});
    return problem;
}

void set_windows(MatchProblem& problem, const Goal& goal, const std::vector<double>& start,
                 const std::vector<double>& same_as) {
    problem.measures.clear();
    problem.windows.clear();
    for (std::size_t k = 0; k < problem.numbers.size(); ++k) {
        problem.measures.push_back(measure(problem.numbers[k], start[k]));
    }
    for (std::size_t j = 0; j < goal.targets.size(); ++j) {
        const std::size_t number = problem.number_of[j];
        problem.windows.push_back(window(goal.targets[j], start[number], same_as[j]));
        problem.windows.back().number = number;
    }
}

double miss(const MatchProblem& problem, const Window& window, double value) {
    if (value >= window.low && value <= window.high) {
        return 0;
    }
    const Measure& measure = problem.measures[window.number];
    const double edge = value < window.low ? window.low : window.high;
    return edge > 0 || !measure.logarithmic ? std::abs(measure.of(value) - measure.of(edge))
                                            : HUGE_VAL;
}

double told_miss(const MatchProblem& problem, const Window& window, double value) {
    constexpr double digits = 1e-10; // of the bound
    const double edge = value < window.low ? window.low : window.high;
    const double outside = std::max(window.low - value, value - window.high);
    if (!(outside > digits * std::abs(edge))) {
        return 0;
    }
    const NumberId& number = problem.numbers[window.number];
    return percent * outside /
           (is_position(number) ? position_scale
            : edge != 0         ? std::abs(edge)
                                : problem.measures[window.number].scale);
}

double change(const MatchProblem& problem, const Eigen::VectorXd& values) {
    double sum = 0;
    for (std::size_t i = 0; i < problem.values.size(); ++i) {
        const MatchValue& value = problem.values[i];
        const double steps = (values[static_cast<Index>(i)] - value.start) / value.step;
        sum += steps * steps;
    }
    return sum;
}

} // namespace vrid
