#include <array>
#include <cmath>
#include <numbers>

#include "io/write/board_text.hpp"
#include "io/write/number.hpp"
#include "io/write/solved_board.hpp"
#include "io/write/strength_doubts.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "solver/edge.hpp"

namespace vrid {
namespace {

constexpr const char* sign_note = "sign: + as the case loads, - against it; the worse is shown. ";

std::string load_cell(const FailurePlace& place) {
    return significant(place.load.value, 4) + " " + load_unit(place);
}

constexpr const char* past_all = "past all";
constexpr const char* past_note =
    "past all: a travel longer than the board, or over half a turn; the load is what stress alone "
    "would bear";

/// A load of stress alone grows without end; no board follows by its own length or half a turn.
std::string travel_cell(const FailurePlace& place, double length) {
    const double most = place.travel.unit == Unit::angle ? std::numbers::pi : length;
    if (std::abs(place.travel.value) > most) {
        return past_all;
    }
    const BenchQuantity travel = to_bench(place.travel);
    return significant(travel.value, 3) + " " + travel.unit;
}

std::string bar_cell_of(const FailurePlace& place) {
    // at no load over the limit before any, as is said below the table
    return !place.resolved ? "not resolved"
           : place.load.value == 0
               ? ""
               : significant(100 * place.load.error / place.load.value, 2) + " %";
}

std::vector<std::string> row_of(const std::string& title, const FailurePlace& place,
                                double length) {
    return {title,
            load_cell(place),
            bar_cell_of(place),
            travel_cell(place, length),
            place.place.sign > 0 ? "+" : "-",
            where_cell(place.place, place.both_sides),
            ply_cell(place.layer, place.place),
            mode_cell(place.place, place.at_clamp, place.at_outline)};
}

std::string bent_table(const StrengthResult& result) {
    if (result.bent.empty()) {
        return "";
    }
    Table table{{left("bent"), left("travel", "mm"), left("index"), left("+-"),
                 left("where x, y", "mm"), left("layer"), left("mode")}};
    const double per_si = bench_unit(Unit::length).per_si;
    for (const BentIndex& one : result.bent) {
        table.rows.push_back(
            {one.bench_case, significant(one.travel * per_si, 4), significant(one.index.value, 3),
             one.resolved ? significant(one.index.error, 2) : "not resolved", where_cell(one.place),
             one.layer, mode_cell(one.place, one.at_clamp, one.at_outline)});
    }
    return "The highest index at the bent board's own stress; 1 is failure.\n\n" + text(table) +
           "\n";
}

std::string main_table(const StrengthResult& result, double length) {
    Table table{{left("case"), left("load"), left("+-"), left("travel"), left("sign"),
                 left("where x, y", "mm"), left("layer, ply", "deg"), left("mode")}};
    for (const CaseStrength& one : result.cases) {
        if (!one.first) {
            continue;
        }
        table.rows.push_back(row_of(one.name + " first", *one.first, length));
        if (one.away && one.first->place.aside <= one.first->place.diameter) {
            table.rows.push_back(row_of("  away from clamps", *one.away, length));
        }
        for (const FailurePlace& next : one.next) {
            table.rows.push_back(row_of("  next", next, length));
        }
        if (one.breaks) {
            table.rows.push_back(row_of("  breaks", *one.breaks, length));
        }
    }
    return table.rows.empty() ? "" : text(table);
}

void add_note(std::string& all, const std::string& note) {
    all += wrapped(note, strength_line, 2);
}

std::string case_notes(const CaseStrength& one) {
    std::string all;
    if (!one.skipped.empty()) {
        add_note(all, one.name + " skipped: " + one.skipped);
        return all;
    }
    if (!one.first) {
        add_note(all, one.name + ": nothing judged");
        return all;
    }
    if (one.before_load) {
        add_note(all, one.name + ": over the limit before any load");
    }
    if (one.kink) {
        add_note(all, one.name + ": " + one.next.front().layer + ", " +
                          mode_name(one.next.front().place.mode) +
                          " is within 3 % of the first: the number has a kink there");
    }
    if (one.at) {
        add_note(all, one.name + ": at " + significant(one.at->load, 4) + " " +
                          load_unit(*one.first) + " the index is " + significant(one.at->index, 3) +
                          (one.at->sign < 0 ? " (-)" : "") + "; 1 is failure");
    }
    return all;
}

std::string slope_notes(const StrengthResult& result) {
    CaseSlopes slopes;
    std::vector<std::string> gentle;
    for (const CaseStrength& one : result.cases) {
        if (!one.first) {
            continue;
        }
        slopes.emplace_back(one.name, one.slope);
        if (one.slope <= slope_limit) {
            gentle.push_back(one.name + " " + significant(one.slope, 2));
        }
    }
    std::string all;
    if (const std::string steep = steep_words(slopes); !steep.empty()) {
        add_note(all, "warning: " + steep);
    }
    if (!gentle.empty()) {
        add_note(all, "steepest slope at the first failure: " + joined(gentle));
    }
    return all;
}

std::map<std::string, Limit> strength_limits(const Board& board) {
    std::map<std::string, Limit> limits;
    for (const auto& [name, limit] : board.limits) {
        if (name.starts_with("strength.")) {
            limits[name] = limit;
        }
    }
    return limits;
}

} // namespace

const std::string& strength_caution() {
    static const std::string text =
        "Caution: a comparison of designs, no proof of safety. Strengths are nominal, mostly of "
        "other people's laminates: static, new, warm. No impact, fatigue, inserts, screws, bonding "
        "faults or notches, which are what breaks most boards. A load that is not reached is no "
        "permission to ride. Test.";
    return text;
}

std::string mode_name(FailureMode mode) {
    constexpr std::array<const char*, failure_modes> names{"fibre tension",
                                                           "fibre compression",
                                                           "tension along the grain",
                                                           "crush along the grain",
                                                           "crack across",
                                                           "crush across",
                                                           "in-plane shear",
                                                           "yield",
                                                           "core shear",
                                                           "delamination",
                                                           "wrinkling"};
    return names.at(static_cast<std::size_t>(mode));
}

std::string where_cell(const Weakness& place, bool both_sides) {
    const double per_si = bench_unit(Unit::length).per_si;
    const double y = place.at.y() * per_si;
    return fixed(place.at.x() * per_si, 0) + ", " +
           (both_sides ? "+-" + fixed(std::abs(y), 0) : fixed(y, 0));
}

std::string ply_cell(const std::string& layer, const Weakness& place) {
    return layer + ", " + fixed(place.angle * bench_unit(Unit::angle).per_si, 0);
}

std::string mode_cell(const Weakness& place, bool at_clamp, bool at_outline) {
    return mode_name(place.mode) + (at_clamp ? ", at the clamp" : "") +
           (at_outline ? ", at the outline" : "");
}

std::string load_unit(const FailurePlace& place) {
    return place.load.unit == Unit::moment ? "N m" : "N";
}

StrengthResult without_cases(const EdgeStrengthResult& edge) {
    StrengthResult result;
    result.not_judged = edge.not_judged;
    result.taken = edge.taken;
    result.residual = !edge.cooled.empty();
    result.cooled = edge.cooled;
    result.criterion = edge.criterion;
    return result;
}

Verdicts strength_verdicts(const BoardStrength& strength) {
    // edge conditions alone; or loads on top of the press's stress, which no limit is on
    if (strength.result.cases.empty() || !strength.result.cooled.empty()) {
        return {};
    }
    return judge(strength_limits(strength.board), strength_numbers(strength.result));
}

std::string strength_text(const BoardStrength& strength) {
    const StrengthResult& result = strength.result;
    std::string all = wrapped(strength_caution(), strength_line) + "\n" + strength.board.name;
    all += result.criterion == Criterion::tsai_hill ? ", Tsai-Hill" : ", maximum stress";
    all += result.cooled == "release" ? ", with the stress it has out of the press"
           : result.cooled == "cold"  ? ", with the stress it has in the cold"
                                      : "";
    all += strength.edge && strength.edge->bent ? ", edge in large motion" : "";
    if (!result.not_judged.empty()) {
        all += ", NOT JUDGED: " + joined(result.not_judged);
    }
    const auto [tail, nose] = x_extent(strength.board.planform);
    const std::string table = main_table(result, nose - tail);
    all += "\n\n" + table + (result.cases.empty() ? "" : "\n") + bent_table(result);
    if (strength.edge) {
        all += edge_strength_text(*strength.edge);
    }
    if (const std::string limits = limits_text(strength_verdicts(strength)); !limits.empty()) {
        all += limits + "\n";
    }
    if (!result.cooled.empty() && !strength_limits(strength.board).empty()) {
        add_note(all,
                 "limits on strength are not judged here: they are on loads without the stress "
                 "out of the press, vrid strength without --cold and --residual judges them");
    }
    for (const CaseStrength& one : result.cases) {
        all += case_notes(one);
    }
    all += slope_notes(result);
    if (table.find(past_all) != std::string::npos) {
        add_note(all, past_note);
    }
    for (const BentMiss& miss : result.not_bent) {
        add_note(all, bent_name(miss) + " skipped: " + miss.why);
    }
    if (!result.not_judged.empty()) {
        add_note(all, "not judged: these layers have no strengths (Xt_MPa and so on of their "
                      "material, strengths_of of their fabric); nothing is guessed");
    }
    if (!result.taken.empty()) {
        add_note(all, "S12 taken for S13 and S23: " + joined(result.taken));
    }
    add_note(all,
             std::string(result.cases.empty() ? "" : sign_note) +
                 "first: any mode, "
                 "also a crack across a ply that the fibres hold; breaks: fibres, wood in "
                 "tension, the core or a bond sheared through, a wrinkled face, a metal edge that "
                 "yields. Stresses are means over a disc as wide as the board is thick. not "
                 "resolved: the bar is above 5 %.");
    return all + "\n" + wrapped(strength_caution(), strength_line);
}

} // namespace vrid
