#include "io/write/lot_report.hpp"

#include <cmath>

#include "io/write/json_parts.hpp"
#include "io/write/lot_strips.hpp"
#include "io/write/program_name.hpp"

namespace vrid {
namespace {

using Eigen::Index;

constexpr int lot_digits = 8;

Json number(double value) {
    return std::isfinite(value) ? Json(round_significant(value, lot_digits)) : Json();
}

Json paths(const LotReport& report, const std::vector<Index>& values) {
    Json all = Json::array();
    for (const Index value : values) {
        all.push_back(report.values[place_in(value)].name);
    }
    return all;
}

Json capability_json(const Capability& one, const LotName& name) {
    return {
        {"mean", number(one.mean * name.per_si)},
        {"sd", number(one.sd * name.per_si)},
        {"rig_too_coarse", one.rig_too_coarse},
        {"cpk", number(one.cpk)},
        {"cpk_half_width", number(one.cpk_half_width)},
        {"outside",
         {{"value", number(one.outside)}, {"low", number(one.low)}, {"high", number(one.high)}}}};
}

Json number_json(const LotReport& report, std::size_t k) {
    const LotName& name = report.numbers[k];
    const LotNumber& one = report.findings.numbers[k];
    const auto shown = [&](double si) { return number(si * name.per_si); };
    const auto row = static_cast<Index>(k);
    Json json{{"number", name.name},
              {"unit", name.unit},
              {"predicted", {{"mean", shown(one.predicted)}, {"sd", shown(one.predicted_sd)}}},
              {"found",
               {{"mean", shown(one.found.mean)},
                {"mean_sd", shown(one.mean_sd)},
                {"sd", shown(one.found.sd)}}},
              {"cells", one.found.cells},
              {"rig_sd", shown(report.model.rig_sd(row))},
              {"rig_sd_of_repeats", static_cast<bool>(report.rig_of_repeats[k])},
              {"bias_sd", shown(report.model.bias_sd(row))},
              {"variance_ratio",
               {{"value", number(one.found.ratio)},
                {"low", number(one.found.low)},
                {"high", number(one.found.high)}}}};
    json["cpk"] = one.built ? number(one.built->cpk) : Json();
    json["outside"] = one.built ? capability_json(*one.built, name)["outside"] : Json();
    json["limits"] = Json();
    if (const auto& limits = report.limits[k]) {
        json["limits"] = {{"min", limits->min ? shown(*limits->min) : Json()},
                          {"max", limits->max ? shown(*limits->max) : Json()}};
        json["built"] = one.built ? capability_json(*one.built, name) : Json();
        json["late"] = one.late ? capability_json(*one.late, name) : Json();
    }
    return json;
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
    const auto serial = [&](Index board) { return report.serials[place_in(board)]; };
    const auto shape = [&](const FirstBoard& first) {
        return Json{{"first", serial(first.first)},
                    {"set", {serial(first.from), serial(first.to)}},
                    {"chi_square", number(first.G2)}};
    };
    const FirstBoard& best = change.best();
    return {{"value", report.values[place_in(change.value)].name},
            {"shape", change.shape == ChangeShape::ramp ? "ramp" : "step"},
            {"first", serial(best.first)},
            {"set", {serial(best.from), serial(best.to)}},
            {"p", number(change.p)},
            {"rivals", paths(report, change.rivals)},
            {"step", shape(change.step)},
            {"ramp", shape(change.ramp)}};
}

Json shift_json(const LotReport& report, const ValueShift& shift) {
    const LotName& name = report.values[place_in(shift.value)];
    return {{"value", name.name},
            {"shift", number(shift.shift * name.per_si)},
            {"sd", number(shift.sd * name.per_si)},
            {"unit", name.unit},
            {"tolerance", number(report.model.value_sd(shift.value) * name.per_si)},
            {"nominal", number(name.nominal * name.per_si)}};
}

Json shifts_json(const LotReport& report, const std::vector<ValueShift>& shifts) {
    Json all = Json::array();
    for (const ValueShift& shift : shifts) {
        all.push_back(shift_json(report, shift));
    }
    return all;
}

void add_moved(Json& json, const LotReport& report) {
    const LotMoved& moved = report.findings.moved;
    json["mean"] = {{"statistic", number(moved.statistic)},
                    {"degrees", moved.degrees},
                    {"p", number(moved.p)},
                    {"explained", moved.explained}};
    json["explanations"] = Json::array();
    for (const LotExplanation& one : moved.explanations) {
        json["explanations"].push_back(
            {{"p", number(one.p)}, {"shifts", shifts_json(report, one.shifts)}});
    }
    json["shifts"] = shifts_json(report, moved.held);
    json["told_apart_badly"] = Json::array();
    for (const auto& [a, b] : moved.alike) {
        json["told_apart_badly"].push_back(paths(report, {a, b}));
    }
}

Json scatter_json(const LotReport& report) {
    Json all = Json::array();
    for (const GroupFactor& one : report.findings.factors) {
        all.push_back({{"group", report.groups[one.group]},
                       {"factor", number(one.factor)},
                       {"low", number(one.low)},
                       {"high", one.high ? number(*one.high) : Json()},
                       {"p", number(one.p)},
                       {"holm", number(one.holm)}});
    }
    return all;
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
        Json readings = Json::array();
        for (const Index reading : next.readings) {
            readings.push_back(report.plan->candidates[place_in(reading)]);
        }
        json["next"].push_back({{"readings", readings},
                                {"D", number(next.D)},
                                {"A", number(next.A)},
                                {"rivals", next.rivals ? number(*next.rivals) : Json()}});
    }
    return json;
}

void add_spread(Json& json, const LotReport& report) {
    const LotFindings& found = report.findings;
    json["spread"] = Json();
    if (found.spread) {
        json["spread"] = {{"statistic", number(found.spread->statistic)},
                          {"degrees", found.spread->degrees},
                          {"p", number(found.spread->p)},
                          {"boards", found.spread->boards}};
    }
    json["wide"] = Json();
    if (found.wide) {
        json["wide"] = {{"group", report.groups[found.wide->group]},
                        {"factor", number(found.wide->factor)}};
    }
}

} // namespace

std::string lot_json(const LotReport& report) {
    const LotFindings& found = report.findings;
    Json json;
    json["format"] = 1;
    json["program"] = program_name();
    json["board"] = Json{{"name", report.board}, {"hash", report.hash}};
    json["boards"] = report.serials.size();
    json["cells"] = (report.readings.count.array() > 0).count();
    json["used"] = found.used.size();
    json["findings"] = lot_lines(report);
    json["notes"] = lot_notes(report);
    json["numbers"] = Json::array();
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        json["numbers"].push_back(number_json(report, k));
    }
    add_spread(json, report);
    json["outliers"] = outliers_json(report);
    json["change"] = change_json(report);
    json["change_p"] = number(found.change.p);
    json["columns"] = Json::array();
    for (std::size_t c = 0; c < report.texts.size(); ++c) {
        json["columns"].push_back({{"column", report.texts[c].name},
                                   {"degrees", found.columns[c].degrees},
                                   {"p", number(found.columns[c].p)},
                                   {"holm", number(found.columns_holm[c])}});
    }
    add_moved(json, report);
    json["scatter"] = scatter_json(report);
    json["scatter_together"] = Json::array();
    for (const JointFactor& one : found.joint) {
        json["scatter_together"].push_back({{"group", report.groups[one.group]},
                                            {"factor", number(one.factor)},
                                            {"sd", number(one.sd)}});
    }
    json["plan"] = plan_json(report);
    json["strips"] = lot_strips_json(report);
    json["warnings"] = report.warnings;
    return json_text(json);
}

} // namespace vrid
