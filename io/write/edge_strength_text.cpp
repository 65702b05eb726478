#include <cmath>

#include "io/write/edge_report.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/table.hpp"
#include "mesh/board/digits_apart.hpp"

namespace vrid {
namespace {

using Row = std::vector<std::string>;

// Where, layer and ply, mode.
void add_place(Row& row, const IndexPlace& one) {
    row.insert(row.end(), {where_cell(one.place), ply_cell(one.layer, one.place),
                           mode_cell(one.place, one.at_clamp, one.at_outline)});
}

Row index_row(const std::string& title, const IndexPlace& one) {
    Row row{title, significant(one.index.value, 3),
            one.resolved ? significant(one.index.error, 2) : "not resolved"};
    add_place(row, one);
    return row;
}

std::string index_table(const EdgeStrengthResult& result) {
    Table table{{left(""), decimal("index"), left("+-"), left("where x, y", "mm"),
                 left("layer, ply", "deg"), left("mode")}};
    for (const EdgeStrength& one : result.conditions) {
        const IndexPlaces& places = one.places;
        if (!places.first) {
            continue;
        }
        table.rows.push_back(
            index_row(edge_condition_name(one.condition) + " first", *places.first));
        if (places.away && places.first->place.aside <= places.first->place.diameter) {
            table.rows.push_back(index_row("  away from feet and snow", *places.away));
        }
        for (const IndexPlace& next : places.next) {
            table.rows.push_back(index_row("  next", next));
        }
        if (places.breaks) {
            table.rows.push_back(index_row("  breaks", *places.breaks));
        }
    }
    return table.rows.empty() ? ""
                              : "The highest failure index on the edge, at that load; 1 is "
                                "failure.\n\n" +
                                    text(table) + "\n";
}

void add_failure(const std::string& title, const EdgeFailure& failure,
                 const std::optional<IndexPlace>& place, std::vector<Row>& rows) {
    if (!failure.why_not.empty() || !place) {
        return;
    }
    const double share = failure.load.error / failure.load.value;
    Row row{title, significant(failure.load.value, 4),
            std::isfinite(share) && place->resolved ? significant(100 * share, 2) + " %"
                                                    : "not resolved"};
    add_place(row, *place);
    rows.push_back(row);
}

std::string failure_table(const EdgeStrengthResult& result) {
    Table table{{left(""), decimal("load", "N"), left("+-"), left("where x, y", "mm"),
                 left("layer, ply", "deg"), left("mode")}};
    for (const EdgeStrength& one : result.conditions) {
        const std::string name = edge_condition_name(one.condition);
        if (one.failure) {
            add_failure(name + " first", *one.failure, one.failure->places.first, table.rows);
        }
        if (one.broken) {
            add_failure("  breaks", *one.broken, one.broken->places.breaks, table.rows);
        }
    }
    return table.rows.empty() ? ""
                              : "The load on both feet at which that index is 1, angle and snow as "
                                "named, the contact found anew at every load.\n\n" +
                                    text(table) + "\n";
}

std::string not_reached(const std::string& name, const std::string& what,
                        const EdgeFailure& failure, const std::optional<IndexPlace>& place) {
    std::string note = name + ": " + what + " is not reached: " + failure.why_not + "; at " +
                       significant(failure.load.value, 4) + " N";
    return note + (place ? " the index is " + significant(place->index.value, 3)
                         : " nothing is under load");
}

std::string slope_note(const std::string& name, double slope, bool bent) {
    const std::string steep =
        "the steepest slope is " + significant(slope, digits_apart(slope, slope_limit, 2));
    if (bent || slope <= slope_limit) {
        return name + ": " + steep;
    }
    return "warning: " + name + ": " + steep + ", above " + significant(slope_limit, 2) +
           ": turns that large are not modelled, but with --bent";
}

std::string condition_notes(const EdgeStrength& one, const EdgeStrengthResult& result) {
    const std::string name = edge_condition_name(one.condition);
    const auto line = [](const std::string& note) { return wrapped(note, strength_line, 2); };
    if (!one.no_equilibrium.empty()) {
        return line(name + ": no equilibrium: " + one.no_equilibrium);
    }
    if (!one.places.first) {
        return line(name + ": nothing judged");
    }
    std::string all = line(slope_note(name, one.places.slope, result.bent));
    if (one.failure && !one.failure->why_not.empty()) {
        all += line(not_reached(name, "failure", *one.failure, one.failure->places.first));
    } else if (one.failure) {
        all +=
            line(slope_note(name + " raised to failure", one.failure->places.slope, result.bent));
    }
    if (one.broken && !one.broken->why_not.empty()) {
        all += line(not_reached(name, "breaking", *one.broken, one.broken->places.breaks));
    }
    return all;
}

} // namespace

std::string edge_strength_text(const EdgeStrengthResult& result) {
    std::string all = index_table(result) + failure_table(result);
    if (result.before_load) {
        all += wrapped("over the limit before any load: the residual stress alone has an index "
                       "above 1 somewhere",
                       strength_line, 2);
    }
    for (const EdgeStrength& one : result.conditions) {
        all += condition_notes(one, result);
    }
    return all + wrapped("edge: the feet are rigid, and their rim is the clamp; away: farther than "
                         "the board is thick from the feet and from the edge that the snow "
                         "presses.",
                         strength_line, 2);
}

} // namespace vrid
