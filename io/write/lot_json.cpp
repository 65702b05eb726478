#include "io/write/lot_report.hpp"

#include <cmath>

#include "io/write/caution.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

constexpr int lot_digits = 8;

Json number(double value) {
    return std::isfinite(value) ? Json(round_significant(value, lot_digits)) : Json();
}

Json paths(const LotReport& report, const std::vector<Index>& values) {
    return each_of(values, [&](const Index value) { return report.values[place_in(value)].name; });
}

Json interval(double value, double low, double high) {
    return {{"value", number(value)}, {"low", number(low)}, {"high", number(high)}};
}

Json capability_json(const std::optional<Capability>& one, const LotName& name) {
    return one ? Json{{"mean", number(one->mean * name.per_si)},
                      {"sd", number(one->sd * name.per_si)},
                      {"rig_too_coarse", one->rig_too_coarse},
                      {"cpk", number(one->cpk)},
                      {"cpk_half_width", number(one->cpk_half_width)},
                      {"outside", interval(one->outside, one->low, one->high)}}
               : Json();
}

FoundLotNumber found_number(const LotReport& report, std::size_t k) {
    const LotName& name = report.numbers[k];
    const LotNumber& one = report.findings.numbers[k];
    const double per = name.per_si;
    const auto row = static_cast<Index>(k);
    FoundLotNumber all;
    all.number = name.name;
    all.unit = name.unit;
    all.predicted = {one.predicted * per, one.predicted_sd * per};
    all.found = {{one.found.mean * per, one.found.sd * per}, one.mean_sd * per};
    all.cells = one.found.cells;
    all.rig_sd = report.model.rig_sd(row) * per;
    all.rig_sd_of_repeats = static_cast<bool>(report.rig_of_repeats[k]);
    all.bias_sd = report.model.bias_sd(row) * per;
    all.variance_ratio = interval(one.found.ratio, one.found.low, one.found.high);
    all.cpk = std::nan("");
    if (one.built) {
        all.cpk = one.built->cpk;
        all.outside = interval(one.built->outside, one.built->low, one.built->high);
    }
    if (const auto& limits = report.limits[k]) {
        const auto shown = [&](const std::optional<double>& si) {
            return si ? std::optional(*si * per) : std::nullopt;
        };
        all.limits = LotBounds{shown(limits->min), shown(limits->max)};
        all.built = capability_json(one.built, name);
        all.late = capability_json(one.late, name);
    }
    return all;
}

Json outliers_json(const LotReport& report) {
    Json all = Json::array();
    for (const LotOutlier& outlier : report.findings.outliers) {
        Json one{{"serial", report.serials[place_in(outlier.board)]},
                 {"distance", number(outlier.distance)},
                 {"cells", outlier.cells}};
        const LotName name = outlier.reading ? report.numbers[place_in(*outlier.reading)]
                             : outlier.value ? report.values[place_in(*outlier.value)]
                                             : LotName{};
        one[outlier.reading ? "reading" : "value"] = name.name;
        one["by"] = number(outlier.by * name.per_si);
        one["unit"] = name.unit;
        all.push_back(one);
    }
    return all;
}

Json change_json(const LotReport& report) {
    const LotChange& change = report.findings.change;
    if (!report.findings.changed) {
        return {};
    }
    const LotName& name = report.values[place_in(change.value)];
    const auto serial = [&](Index board) { return report.serials[place_in(board)]; };
    const auto shape = [&](const FirstBoard& first) {
        return Json{{"first", serial(first.first)},
                    {"set", {serial(first.from), serial(first.to)}},
                    {"chi_square", number(first.G2)},
                    {"by", number(first.shift * name.per_si)},
                    {"by_sd", number(first.sd * name.per_si)}};
    };
    const FirstBoard& best = change.best();
    return {{"value", name.name},
            {"by", number(best.shift * name.per_si)},
            {"by_sd", number(best.sd * name.per_si)},
            {"unit", name.unit},
            {"shape", change.shape == ChangeShape::ramp ? "ramp" : "step"},
            {"first", serial(best.first)},
            {"set", {serial(best.from), serial(best.to)}},
            {"p", number(change.p)},
            {"rivals", paths(report, change.rivals)},
            {"step", shape(change.step)},
            {"ramp", shape(change.ramp)}};
}

std::vector<FoundShift> found_shifts(const LotReport& report,
                                     const std::vector<ValueShift>& shifts) {
    std::vector<FoundShift> all;
    for (const ValueShift& one : shifts) {
        const LotName& name = report.values[place_in(one.value)];
        all.push_back({name.name, one.shift * name.per_si, one.sd * name.per_si, name.unit,
                       report.model.value_sd(one.value) * name.per_si, name.nominal * name.per_si});
    }
    return all;
}

void add_moved(FoundLot& all, const LotReport& report) {
    const LotMoved& moved = report.findings.moved;
    all.mean = Json{{"statistic", number(moved.statistic)},
                    {"degrees", moved.degrees},
                    {"p", number(moved.p)},
                    {"explained", moved.explained}};
    all.explanations = Json::array();
    for (const LotExplanation& one : moved.explanations) {
        const Json shifts = written(found_shifts(report, one.shifts));
        all.explanations.value.push_back({{"p", number(one.p)}, {"shifts", shifts}});
    }
    all.shifts = found_shifts(report, moved.held);
    all.told_apart_badly = Json::array();
    for (const auto& [a, b] : moved.alike) {
        all.told_apart_badly.value.push_back(paths(report, {a, b}));
    }
}

Json scatter_json(const LotReport& report) {
    return each_of(report.findings.factors, [&](const GroupFactor& one) {
        return Json{{"group", report.groups[one.group]},
                    {"factor", number(one.factor)},
                    {"low", number(one.low)},
                    {"high", one.high ? number(*one.high) : Json()},
                    {"p", number(one.p)},
                    {"holm", number(one.holm)}};
    });
}

Json plan_json(const LotReport& report) {
    Json json = Json::object();
    if (!report.plan) {
        return json;
    }
    json["boards"] = Json::array();
    for (const BoardsNeeded& one : report.plan->boards) {
        const LotName& name = report.values[place_in(one.value)];
        json["boards"].push_back({{"value", name.name},
                                  {"shift", number(report.model.value_sd(one.value) * name.per_si)},
                                  {"alone", number(one.alone)},
                                  {"all", one.all ? number(*one.all) : Json()}});
    }
    json["lot"] = report.plan->lot;
    json["rivals"] = paths(report, report.plan->rivals);
    json["of_interest"] = paths(report, report.plan->interest);
    json["next"] = Json::array();
    for (const NextReadings& next : report.plan->next) {
        const Json readings = each_of(next.readings, [&](const Index reading) {
            return report.plan->candidates[place_in(reading)];
        });
        json["next"].push_back({{"readings", readings},
                                {"D", number(next.D)},
                                {"A", number(next.A)},
                                {"rivals", next.rivals ? number(*next.rivals) : Json()}});
    }
    return json;
}

void add_spread(FoundLot& all, const LotReport& report) {
    const LotFindings& found = report.findings;
    if (found.spread) {
        all.spread = Json{{"statistic", number(found.spread->statistic)},
                          {"degrees", found.spread->degrees},
                          {"p", number(found.spread->p)},
                          {"boards", found.spread->boards}};
    }
    if (found.wide) {
        all.wide = Json{{"group", report.groups[found.wide->group]},
                        {"factor", number(found.wide->factor)}};
    }
}

} // namespace

std::string lot_json(const LotReport& report) {
    const LotFindings& found = report.findings;
    FoundLot all;
    all.program = program_name();
    all.board = {report.board, report.hash};
    all.boards = static_cast<int>(report.serials.size());
    all.cells = (report.readings.count.array() > 0).count();
    all.used = static_cast<long>(found.used.size());
    all.findings = lot_lines(report);
    all.notes = lot_notes(report);
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        all.numbers.push_back(found_number(report, k));
    }
    add_spread(all, report);
    all.outliers = outliers_json(report);
    all.change = change_json(report);
    all.change_p = found.change.p;
    all.columns = Json::array();
    for (std::size_t c = 0; c < report.texts.size(); ++c) {
        all.columns.value.push_back({{"column", report.texts[c].column},
                                     {"degrees", found.columns[c].degrees},
                                     {"p", number(found.columns[c].p)},
                                     {"holm", number(found.columns_holm[c])}});
    }
    add_moved(all, report);
    all.scatter = scatter_json(report);
    all.scatter_together = each_of(found.joint, [&](const JointFactor& one) {
        return Json{{"group", report.groups[one.group]},
                    {"factor", number(one.factor)},
                    {"sd", number(one.sd)}};
    });
    all.plan = plan_json(report);
    all.strips = lot_strips(report);
    all.warnings = report.warnings;
    return json_text(written(all));
}

} // namespace vrid
