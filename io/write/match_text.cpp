#include <algorithm>
#include <cmath>

#include "io/write/board_text.hpp"
#include "io/write/design_path.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/match_report.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"
#include "mesh/board/digits_apart.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

constexpr int digits_of_window = 5;
constexpr double no_length = 1e-7; // [m]

std::string bar(const RoundedNumber& number) {
    return number.error.empty() ? "" : "+- " + number.error;
}

std::string percent_change(const Quantity& before, const Quantity& after) {
    if (before.unit == Unit::length || before.unit == Unit::angle || before.value == 0) {
        return "";
    }
    const double percent = 100 * (after.value - before.value) / std::abs(before.value);
    return (percent > 0 ? "+" : "") + fixed(percent, 2) + " %";
}

std::string window_text(const Window& window, Unit unit, int digits) {
    const double scale = bench_unit(unit).per_si;
    const std::string low = significant(window.low * scale, digits);
    const std::string high = significant(window.high * scale, digits);
    if (std::isinf(window.low)) {
        return "at most " + high;
    }
    return std::isinf(window.high) ? "at least " + low : low + " to " + high;
}

std::string verdict(const NumberId& number, const MatchedTarget& target) {
    if (target.met) {
        return target.clear ? "met" : "met, margin within the error bar";
    }
    return "missed by " + miss_text(number, target.miss);
}

// As many as tell a number that misses its window from the bound.
int digits_of(const MatchedTarget& target) {
    const double per_si = bench_unit(target.after.unit).per_si;
    const double bound =
        target.after.value < target.window.low ? target.window.low : target.window.high;
    return target.met ? digits_of_window
                      : digits_apart(target.after.value * per_si, bound * per_si, digits_of_window);
}

// Rounded to its bar, unless it misses its window by less than that shows.
std::string found_text(const MatchedTarget& target, const std::string& rounded) {
    const BenchUnit unit = bench_unit(target.after.unit);
    const double shown = std::stod(rounded) / unit.per_si;
    const bool inside = shown >= target.window.low && shown <= target.window.high;
    return target.met || !inside ? rounded
                                 : significant(target.after.value * unit.per_si, digits_of(target));
}

std::string targets_text(const MatchReport& report) {
    Table table{{left("target"), left("wanted"), decimal("found"), left("error bar"), left("unit"),
                 left("")}};
    for (std::size_t j = 0; j < report.goal.targets.size(); ++j) {
        const MatchedTarget& target = report.result.targets[j];
        const BenchQuantity found = to_bench(target.after);
        const RoundedNumber shown = rounded(found.value, found.error);
        const NumberId& number = report.goal.targets[j].number;
        table.rows.push_back(
            {number_name(number), window_text(target.window, target.after.unit, digits_of(target)),
             found_text(target, shown.value), bar(shown), found.unit, verdict(number, target)});
    }
    return text(table);
}

std::vector<std::string> number_row(const NumberPair& number) {
    const BenchQuantity from = to_bench(number.before);
    const BenchQuantity to = to_bench(number.after);
    const RoundedNumber was = rounded(from.value, from.error);
    const RoundedNumber is = rounded(to.value, to.error);
    return {number.name,
            was.value,
            bar(was),
            is.value,
            bar(is),
            to.unit,
            percent_change(number.before, number.after)};
}

/// Those of the targets first, each once.
std::string numbers_text(const MatchReport& report) {
    Table table{{left("number"), decimal("before"), left(""), decimal("after"), left(""),
                 left("unit"), decimal("change")}};
    std::vector<NumberPair> numbers;
    for (std::size_t j = 0; j < report.goal.targets.size(); ++j) {
        const MatchedTarget& target = report.result.targets[j];
        const std::string name = number_name(report.goal.targets[j].number);
        if (!contains(numbers, name, &NumberPair::name)) {
            numbers.push_back({name, target.before, target.after});
        }
    }
    numbers.insert(numbers.end(), report.others.begin(), report.others.end());
    for (const NumberPair& number : numbers) {
        const bool nothing = number.before.unit == Unit::length &&
                             std::abs(number.before.value) < no_length &&
                             std::abs(number.after.value) < no_length;
        if (!nothing) {
            table.rows.push_back(number_row(number));
        }
    }
    return text(table);
}

std::string values_text(const MatchReport& report) {
    Table table{{left("changed value"), decimal("before"), decimal("after"), left("unit")}};
    for (std::size_t i = 0; i < report.problem.values.size(); ++i) {
        const MatchValue& value = report.problem.values[i];
        const std::string before = file_value(value, value.start);
        const std::string after =
            file_value(value, report.result.values[static_cast<Eigen::Index>(i)]);
        if (before != after) {
            table.rows.push_back({value_name(value), before, after, file_unit_name(value.id)});
        }
    }
    return table.rows.empty() ? "  no value changed\n" : text(table);
}

std::string limits_text(const MatchReport& report) {
    std::string all;
    for (const ActiveLimit& limit : report.result.active) {
        all += "    " + limit_words(report, limit) + "\n";
    }
    return all.empty() ? "" : "\n  limits reached\n" + all;
}

std::string broken_text(const Verdicts& limits) {
    const std::string broken = limits_text(exceeded(limits));
    return broken.empty() ? "" : "\n  [limits] of the board file that this board breaks\n" + broken;
}

std::string obstacles_text(const MatchReport& report) {
    const MatchResult& result = report.result;
    if (result.slopes_broken > 0) {
        return "\n  limiting: no core within the limits keeps to max_slope\n";
    }
    std::string all;
    for (const Obstacle& obstacle : result.obstacles) {
        all += "    " + obstacle_words(report, obstacle);
        if (obstacle.kind == Obstacle::Kind::min || obstacle.kind == Obstacle::Kind::max) {
            all += ", one step further";
        } else if (obstacle.kind == Obstacle::Kind::slope) {
            all += ", a tenth steeper";
        }
        if (obstacle.kind == Obstacle::Kind::rounding) {
            all += "\n";
            continue;
        }
        all +=
            obstacle.miss_without < 0.05
                ? ": none would be missed\n"
                : ": " +
                      miss_text(report.goal.targets[obstacle.worst].number, obstacle.miss_without) +
                      "\n";
    }
    return all.empty()
               ? "\n  limiting: the free values move these numbers too little\n"
               : "\n  limiting; the worst miss without it, estimated from the derivatives\n" + all;
}

} // namespace

std::string match_text(const MatchReport& report) {
    const MatchResult& result = report.result;
    const bool clear = std::ranges::all_of(result.targets, &MatchedTarget::clear);
    const auto worst = std::ranges::max_element(result.targets, {}, &MatchedTarget::miss);
    const auto at = static_cast<std::size_t>(worst - result.targets.begin());
    std::string all = report.board.name + ": ";
    all += result.slopes_broken > 0 ? "no answer\n\n"
           : !result.met            ? "no answer; the nearest board misses a target by " +
                               miss_text(report.goal.targets[at].number, worst->miss) + "\n\n"
           : clear ? "all targets met\n\n"
                   : "all targets met, some by less than the error bar\n\n";
    const std::vector<NumberId> numbers = each_of(report.goal.targets, &Target::number);
    const std::string line =
        condition_line(condition_of(numbers, report.goal.edge.value_or(EdgeCondition{})));
    all += line.empty() ? "" : line + "\n";
    all += targets_text(report) + "\n" + values_text(report) + limits_text(report);
    all += result.met ? "" : obstacles_text(report);
    all += broken_text(report.limits) + weaker_text(report.weaker);
    all += "\n" + numbers_text(report);
    all += "\n  " + std::to_string(result.solves) + " solves, " + fixed(report.seconds, 1) + " s\n";
    all += report.written.empty() ? "  no board file was written\n"
                                  : "  the board is in " + report.written + "\n";
    return all;
}

} // namespace vrid
