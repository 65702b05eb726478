#include <cmath>

#include "io/write/caution.hpp"
#include "io/write/design_path.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/match_report.hpp"
#include "io/write/number_name.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

constexpr int match_digits = 10;

Json bound(double value, Unit unit) {
    return std::isinf(value)
               ? Json()
               : Json(round_significant(value * bench_unit(unit).per_si, match_digits));
}

double in_file(const char* key, double si) {
    return round_significant(from_si(key, si), match_digits);
}

Json pair(const Quantity& before, const Quantity& after) {
    return Json{{"before", json_of(before)}, {"after", json_of(after)}};
}

Json target_json(const Target& target, const MatchedTarget& matched) {
    Json one{{"number", number_name(target.number)}};
    one.update(pair(matched.before, matched.after));
    one["min"] = bound(matched.window.low, matched.after.unit);
    one["max"] = bound(matched.window.high, matched.after.unit);
    one["met"] = matched.met;
    one["with_bar"] = matched.clear;
    one["missed"] = round_significant(matched.miss, 3);
    return one;
}

Json values_json(const MatchReport& report) {
    Json all = Json::array();
    for (std::size_t i = 0; i < report.problem.values.size(); ++i) {
        const MatchValue& value = report.problem.values[i];
        const double after = report.result.values[static_cast<Eigen::Index>(i)];
        all.push_back(
            Json{{"value", path_of(value.id)},
                 {"before", round_significant(from_si(value.id, value.start), match_digits)},
                 {"after", round_significant(from_si(value.id, after), match_digits)},
                 {"unit", file_unit_name(value.id)}});
    }
    return all;
}

Json obstacles_json(const MatchReport& report) {
    Json all = Json::array();
    for (const Obstacle& obstacle : report.result.obstacles) {
        all.push_back(Json{{"what", obstacle_words(report, obstacle)},
                           {"worst_miss_without", round_significant(obstacle.miss_without, 3)}});
    }
    if (report.result.slopes_broken > 0) {
        all.push_back(Json{{"what", "no core within the limits keeps to max_slope"}});
    }
    return all;
}

} // namespace

std::string match_json(const MatchReport& report) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["board"] = Json{{"name", report.board.name}, {"hash", report.board.hash}};
    all["goal"] = report.goal.file;
    all["met"] = report.result.met;
    all["worst_miss"] = round_significant(report.result.miss, 3);
    all["targets"] = Json::array();
    for (std::size_t j = 0; j < report.goal.targets.size(); ++j) {
        all["targets"].push_back(target_json(report.goal.targets[j], report.result.targets[j]));
    }
    all["values"] = values_json(report);
    all["limits"] = each_of(report.result.active,
                            [&](const ActiveLimit& limit) { return limit_words(report, limit); });
    all["board_limits"] = written(report.limits);
    all["in_the_way"] = obstacles_json(report);
    all["thinner"] = each_of(report.weaker.stations, [](const ThinnerStation& one) {
        return Json{{"x_mm", in_file("x_mm", one.x)},
                    {"before_mm", in_file("thickness_mm", one.before)},
                    {"after_mm", in_file("thickness_mm", one.after)}};
    });
    all["lighter"] = each_of(report.weaker.layers, [](const LighterLayer& one) {
        return Json{{"layer", one.name},
                    {"before_gsm", in_file("areal_weight_gsm", one.before)},
                    {"after_gsm", in_file("areal_weight_gsm", one.after)}};
    });
    all["earlier_failures"] = each_of(report.weaker.failures, [](const EarlierFailure& one) {
        return Json{{"case", one.bench_case},           {"before", json_of(one.before.load)},
                    {"after", json_of(one.after.load)}, {"resolved", is_resolved(one)},
                    {"layer", one.after.layer},         {"mode", mode_name(one.after.place.mode)}};
    });
    all["strength_judged"] = report.weaker.judged;
    all["others"] = Json::object();
    for (const NumberPair& other : report.others) {
        all["others"][other.name] = pair(other.before, other.after);
    }
    all["written"] = report.written.empty() ? Json() : Json(report.written);
    all["solves"] = report.result.solves;
    all["seconds"] = round_significant(report.seconds, 3);
    all["caution"] = caution;
    return json_text(all);
}

} // namespace vrid
