#include <cmath>

#include "io/write/design_path.hpp"
#include "io/write/match_report.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr int sentence_digits = 6;

std::string in_words(double value) {
    return short_number(value, sentence_digits);
}

std::string with_unit(const MatchValue& value, double si) {
    const std::string unit = file_unit_name(value.id);
    return file_value(value, si) + (unit.empty() ? "" : " " + unit);
}

std::string between_stations(const SlopeLimit& limit) {
    return "between x = " + in_words(from_si("x_mm", limit.x_left)) + " and " +
           in_words(from_si("x_mm", limit.x_right)) + " mm";
}

std::string end_words(const MatchReport& report, std::size_t index, bool min) {
    const MatchValue& value = report.problem.values[index];
    return value_name(value) + " at its " + (min ? "min of " : "max of ") +
           with_unit(value, min ? value.min : value.max);
}

} // namespace

std::string miss_text(const NumberId& number, double miss) {
    constexpr int digits = 3;
    if (!is_position(number)) {
        return significant(miss, digits) + " %";
    }
    return unit_of(number) == Unit::angle
               ? significant(1e-3 * miss * bench_unit(Unit::angle).per_si, digits) + " deg"
               : significant(miss, digits) + " mm";
}

std::string value_name(const MatchValue& value) {
    return path_of(value.id) +
           (value.station ? " (x = " + in_words(from_si("x_mm", *value.station)) + ")" : "");
}

std::string file_value(const MatchValue& value, double si) {
    return in_words(from_si(value.id, si));
}

std::string limit_words(const MatchReport& report, const ActiveLimit& limit) {
    if (limit.kind != ActiveLimit::Kind::slope) {
        return end_words(report, limit.index, limit.kind == ActiveLimit::Kind::min);
    }
    const SlopeLimit& slope = report.problem.slopes[limit.index];
    return "slope of the core " + between_stations(slope) + ": " +
           significant(std::abs(limit.value), 3) + " of " + in_words(slope.max);
}

std::string obstacle_words(const MatchReport& report, const Obstacle& obstacle) {
    switch (obstacle.kind) {
    case Obstacle::Kind::target:
        return "the target " + number_name(report.goal.targets[obstacle.index].number) + " (" +
               report.goal.targets[obstacle.index].place + ")";
    case Obstacle::Kind::slope:
        return "max_slope of the core " + between_stations(report.problem.slopes[obstacle.index]);
    case Obstacle::Kind::rounding:
        return "round_to: without it the targets can be met";
    case Obstacle::Kind::min:
    case Obstacle::Kind::max:
        break;
    }
    return end_words(report, obstacle.index, obstacle.kind == Obstacle::Kind::min);
}

} // namespace vrid
