#include "io/write/edge_report.hpp"
#include "io/write/edge_strength_report.hpp"
#include "io/write/number.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

Json json_of(const IndexPlace& one) {
    const Json index = json_of(one.index);
    Json all;
    all["index"] = index["value"];
    all["error"] = index["error"];
    all["x_mm"] = in_mm(one.place.at.x(), place_digits);
    all["y_mm"] = in_mm(one.place.at.y(), place_digits);
    all["layer"] = one.layer;
    all["ply"] = one.place.ply;
    all["ply_deg"] =
        round_significant(one.place.angle * bench_unit(Unit::angle).per_si, place_digits);
    all["z_mm"] = in_mm(one.place.z, place_digits);
    all["mode"] = mode_name(one.place.mode);
    all["at_clamp"] = one.at_clamp;
    all["at_outline"] = one.at_outline;
    all["resolved"] = one.resolved;
    return all;
}

Json json_of(const EdgeFailure& failure, const std::optional<IndexPlace>& place) {
    Json all = json_of(failure.load);
    if (!failure.why_not.empty()) {
        all["error"] = Json();
        all["why_not"] = failure.why_not;
    }
    all["slope"] = round_significant(failure.places.slope, 4);
    if (place) {
        all["place"] = json_of(*place);
    }
    return all;
}

void add_places(Json& all, const IndexPlaces& places) {
    for (const auto& [name, place] :
         {std::pair("first", &places.first), std::pair("away", &places.away),
          std::pair("breaks", &places.breaks)}) {
        if (*place) {
            all[name] = json_of(**place);
        }
    }
    all["next"] = Json::array();
    for (const IndexPlace& next : places.next) {
        all["next"].push_back(json_of(next));
    }
}

} // namespace

Json edge_strength_json(const EdgeStrengthResult& result) {
    Json conditions = Json::array();
    for (const EdgeStrength& one : result.conditions) {
        Json all = edge_condition_json(one.condition);
        if (!one.no_equilibrium.empty()) {
            all["no_equilibrium"] = one.no_equilibrium;
            conditions.push_back(all);
            continue;
        }
        add_places(all, one.places);
        all["not_judged"] = result.not_judged;
        all["residual"] = !result.cooled.empty();
        all["before_load"] = result.before_load;
        all["slope"] = round_significant(one.places.slope, 4);
        if (one.failure) {
            all["to_failure"]["first"] = json_of(*one.failure, one.failure->places.first);
        }
        if (one.broken) {
            all["to_failure"]["breaks"] = json_of(*one.broken, one.broken->places.breaks);
        }
        conditions.push_back(all);
    }
    return conditions;
}

} // namespace vrid
