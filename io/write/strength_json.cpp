#include "io/write/edge_strength_report.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/number.hpp"
#include "io/write/program_name.hpp"
#include "io/write/strength_view_json.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

Json json_of(const FailurePlace& place) {
    Json all = json_of(place.load);
    all["unit"] = load_unit(place);
    const BenchQuantity travel = to_bench(place.travel);
    all["travel"] = round_significant(travel.value, 10);
    all["travel_error"] = json_of(place.travel)["error"];
    all["travel_unit"] = travel.unit;
    all["x_mm"] = in_mm(place.place.at.x(), place_digits);
    all["y_mm"] = in_mm(place.place.at.y(), place_digits);
    all["both_sides"] = place.both_sides;
    all["layer"] = place.layer;
    all["ply"] = place.place.ply;
    all["ply_deg"] =
        round_significant(place.place.angle * bench_unit(Unit::angle).per_si, place_digits);
    all["z_mm"] = in_mm(place.place.z, place_digits);
    all["mode"] = mode_name(place.place.mode);
    all["at_clamp"] = place.at_clamp;
    all["at_outline"] = place.at_outline;
    all["resolved"] = place.resolved;
    all["sign"] = place.place.sign;
    return all;
}

Json json_of(const BentIndex& one) {
    Json all;
    all["case"] = one.bench_case;
    all["travel_mm"] = in_mm(one.travel, place_digits);
    all["index"] = round_significant(one.index.value, 6);
    all["error"] = round_significant(one.index.error, 3);
    all["x_mm"] = in_mm(one.place.at.x(), place_digits);
    all["y_mm"] = in_mm(one.place.at.y(), place_digits);
    all["layer"] = one.layer;
    all["ply"] = one.place.ply;
    all["z_mm"] = in_mm(one.place.z, place_digits);
    all["mode"] = mode_name(one.place.mode);
    all["at_clamp"] = one.at_clamp;
    all["at_outline"] = one.at_outline;
    all["resolved"] = one.resolved;
    return all;
}

Json json_of(const CaseStrength& one, const StrengthResult& result) {
    Json all;
    if (!one.skipped.empty()) {
        all["skipped"] = one.skipped;
        return all;
    }
    if (one.first) {
        all["first"] = json_of(*one.first);
    }
    if (one.away) {
        all["away"] = json_of(*one.away);
    }
    if (one.breaks) {
        all["breaks"] = json_of(*one.breaks);
    }
    all["next"] = Json::array();
    for (const FailurePlace& next : one.next) {
        all["next"].push_back(json_of(next));
    }
    all["not_judged"] = result.not_judged;
    all["residual"] = result.residual;
    all["before_load"] = one.before_load;
    all["slope"] = round_significant(one.slope, 4);
    all["kink"] = one.kink;
    if (one.at) {
        all["at"] = Json{{"load", round_significant(one.at->load, 10)},
                         {"index", round_significant(one.at->index, 6)},
                         {"sign", one.at->sign}};
    }
    return all;
}

std::string document(const BoardStrength& strength, const StrengthView* view) {
    const StrengthResult& result = strength.result;
    Json all;
    all["caution"] = strength_caution();
    all["format"] = 1;
    all["program"] = program_name();
    all["board"] = Json{{"name", strength.board.name}, {"hash", strength.board.hash}};
    all["criterion"] = result.criterion == Criterion::tsai_hill ? "tsai-hill" : "max-stress";
    all["residual"] = result.cooled.empty() ? Json() : Json(result.cooled);
    all["strength"] = Json::object();
    for (const CaseStrength& one : result.cases) {
        all["strength"][one.name] = json_of(one, result);
    }
    if (view != nullptr) {
        add_view(*view, all);
    }
    if (!result.bent.empty()) {
        all["bent"] = Json::array();
        for (const BentIndex& one : result.bent) {
            all["bent"].push_back(json_of(one));
        }
    }
    if (strength.edge) {
        all["edge_motion"] = strength.edge->bent ? "large" : "small";
        all["edge"] = edge_strength_json(*strength.edge);
    }
    if (const auto verdicts = strength_verdicts(strength); !verdicts.empty()) {
        all["limits"] = json_of(verdicts);
    }
    all["taken"] = result.taken;
    all["warnings"] = result.warnings;
    if (strength.edge) {
        for (const std::string& warning : strength.edge->warnings) {
            all["warnings"].push_back(warning);
        }
    }
    all["caution_again"] = strength_caution();
    return json_text(all);
}

} // namespace

std::string strength_json(const BoardStrength& strength) {
    return document(strength, nullptr);
}

std::string strength_json(const BoardStrength& strength, const StrengthView& view) {
    return document(strength, &view);
}

} // namespace vrid
