#include <algorithm>

#include "io/write/caution.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/solved_board.hpp"
#include "io/write/strength_document.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "solver/response/error_bar.hpp"
#include "solver/strength_view.hpp"

namespace vrid {
namespace {

constexpr int view_digits = 6;
constexpr int place_digits = 7;
constexpr int index_digits = 6;
constexpr int bar_digits = 3;
constexpr int slope_digits = 4;

double in_degrees(double angle, int digits) {
    return round_significant(angle * bench_unit(Unit::angle).per_si, digits);
}

template <class Part, class Found>
std::optional<Found> perhaps(const std::optional<Part>& part, Found (*found)(const Part&)) {
    return part ? std::optional(found(*part)) : std::nullopt;
}

template <class Place> void fill_spot(FoundSpot& spot, const Place& one) {
    spot = {in_mm(one.place.at.x(), place_digits),
            in_mm(one.place.at.y(), place_digits),
            one.layer,
            one.place.ply,
            in_degrees(one.place.angle, place_digits),
            in_mm(one.place.z, place_digits),
            mode_name(one.place.mode),
            one.at_clamp,
            one.at_outline,
            one.resolved};
}

FoundPlace found_place(const FailurePlace& place) {
    FoundPlace all;
    fill_spot(all, place);
    all.load = {to_bench(place.load)};
    all.load.unit = load_unit(place);
    const BenchQuantity travel = to_bench(place.travel);
    all.travel = travel.value;
    all.travel_error = round_significant(travel.error, bar_digits);
    all.travel_unit = travel.unit;
    all.both_sides = place.both_sides;
    all.sign = place.place.sign;
    return all;
}

FoundBent found_bent(const BentIndex& one) {
    FoundBent all;
    fill_spot(all, one);
    all.bench_case = one.bench_case;
    all.travel_mm = in_mm(one.travel, place_digits);
    all.index = round_significant(one.index.value, index_digits);
    all.error = round_significant(one.index.error, bar_digits);
    return all;
}

FoundCaseStrength found_case(const CaseStrength& one, const StrengthResult& result) {
    FoundCaseStrength all{one.name, one.skipped};
    if (!one.skipped.empty()) {
        return all;
    }
    all.first = perhaps(one.first, found_place);
    all.away = perhaps(one.away, found_place);
    all.breaks = perhaps(one.breaks, found_place);
    all.next = each_of(one.next, found_place);
    all.not_judged = result.not_judged;
    all.residual = result.residual;
    all.before_load = one.before_load;
    all.slope = one.slope;
    all.kink = one.kink;
    if (one.at) {
        all.at = {one.at->load, round_significant(one.at->index, index_digits), one.at->sign};
    }
    return all;
}

FoundIndex found_index(const IndexPlace& one) {
    FoundIndex all;
    fill_spot(all, one);
    all.index = one.index.value;
    all.error = round_significant(one.index.error, bar_digits);
    return all;
}

FoundEdgeFailure found_failure(const EdgeFailure& failure, const std::optional<IndexPlace>& place) {
    FoundEdgeFailure all;
    all.load = {to_bench(failure.load)};
    all.why_not = failure.why_not;
    all.slope = failure.places.slope;
    all.place = perhaps(place, found_index);
    if (!failure.why_not.empty()) {
        all.load.error = no_bar;
    }
    return all;
}

FoundEdgeStrength found_on_edge(const EdgeStrengthResult& result, const EdgeStrength& one) {
    FoundEdgeStrength all;
    static_cast<WrittenCondition&>(all) = written_condition(one.condition);
    all.no_equilibrium = one.no_equilibrium;
    if (!one.no_equilibrium.empty()) {
        return all;
    }
    all.first = perhaps(one.places.first, found_index);
    all.away = perhaps(one.places.away, found_index);
    all.breaks = perhaps(one.places.breaks, found_index);
    all.next = each_of(one.places.next, found_index);
    all.not_judged = result.not_judged;
    all.residual = !result.cooled.empty();
    all.before_load = result.before_load;
    all.slope = round_significant(one.places.slope, slope_digits);
    if (one.failure) {
        all.to_failure.emplace().first = found_failure(*one.failure, one.failure->places.first);
    }
    if (one.broken) {
        FailureLoads loads = all.to_failure.value_or(FailureLoads{});
        loads.breaks = found_failure(*one.broken, one.broken->places.breaks);
        all.to_failure = loads;
    }
    return all;
}

StressByName found_stress(const ProfiledStress& stress) {
    StressByName all;
    const auto add = [&](const char* name, const auto& row) {
        std::vector<double>& values = all[name];
        for (const double value : row) {
            values.push_back(from_si("stress_MPa", value));
        }
    };
    add("1", stress.in_plane.row(0));
    add("2", stress.in_plane.row(1));
    add("12", stress.in_plane.row(2));
    add("13", stress.shear.row(0));
    add("23", stress.shear.row(1));
    return all;
}

// Of an isotropic material Xt and Xc alone, what the criterion goes by.
Named<double> found_strengths(const PlyStrength& strength) {
    Named<double> all;
    const auto add = [&](const char* key, const std::optional<double>& value, bool given = true) {
        if (value && given) {
            all[key] = from_si("stress_MPa", *value);
        }
    };
    add("Xt", strength.Xt);
    add("Xc", strength.Xc);
    add("Yt", strength.Yt, !strength.isotropic);
    add("Yc", strength.Yc, !strength.isotropic);
    add("S12", strength.S12, !strength.isotropic);
    add("S13", strength.S13);
    add("S23", strength.S23);
    return all;
}

StressedPart found_part(const PartProfile& part) {
    return {part.material, found_stress(part.stress), perhaps(part.strength, found_strengths)};
}

StressedPly found_ply(const PlyProfile& ply) {
    return {ply.layer,
            ply.number,
            in_degrees(ply.angle, view_digits),
            {in_mm(ply.bottom, view_digits), in_mm(ply.top, view_digits)},
            found_stress(ply.stress),
            each_of(ply.parts, found_part)};
}

double view_mm(double metres) {
    return in_mm(metres, view_digits);
}

void add_view(const StrengthView& view, StrengthFindings& all) {
    if (view.grid.x.empty()) {
        return; // no case was run
    }
    all.grid = {each_of(view.grid.x, view_mm), each_of(view.grid.right, view_mm),
                each_of(view.grid.left, view_mm), view.grid.rows};
    for (const CaseView& one : view.cases) {
        const auto found = std::ranges::find(all.strength, one.name, &FoundCaseStrength::name);
        found->lowest_load.emplace();
        for (const auto& row : one.load.rowwise()) {
            found->lowest_load->emplace_back(row.begin(), row.end());
        }
        found->through = each_of(one.through, found_ply);
    }
}

} // namespace

std::string strength_json(const BoardStrength& strength, const StrengthView& view) {
    const StrengthResult& result = strength.result;
    StrengthFindings all;
    all.caution = strength_caution();
    all.program = program_name();
    all.board = BoardEntry{strength.board.name, strength.board.hash};
    all.criterion = result.criterion == Criterion::tsai_hill ? "tsai-hill" : "max-stress";
    if (!result.cooled.empty()) {
        all.residual = result.cooled;
    }
    for (const CaseStrength& one : result.cases) {
        all.strength.push_back(found_case(one, result));
    }
    add_view(view, all);
    all.bent = each_of(result.bent, found_bent);
    all.warnings = json_of(strength.warnings).get<std::vector<std::string>>(); // of the file first
    all.warnings.value.insert(all.warnings.value.end(), result.warnings.begin(),
                              result.warnings.end());
    for (const BentMiss& miss : result.not_bent) {
        all.warnings.value.push_back(bent_name(miss) + " skipped: " + miss.why);
    }
    if (strength.edge) {
        all.edge_motion = strength.edge->bent ? "large" : "small";
        all.edge.emplace();
        for (const EdgeStrength& one : strength.edge->conditions) {
            all.edge->push_back(found_on_edge(*strength.edge, one));
        }
        all.warnings.value.insert(all.warnings.value.end(), strength.edge->warnings.begin(),
                                  strength.edge->warnings.end());
    }
    all.limits = strength_verdicts(strength);
    all.taken = result.taken;
    all.caution_again = strength_caution();
    return json_text(written(all));
}

} // namespace vrid
