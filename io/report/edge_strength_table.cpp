#include <cmath>

#include "io/report/report.hpp"
#include "io/report/strength_pictures.hpp"
#include "io/report/svg.hpp"

namespace vrid {

namespace {

std::string index_cell(const std::string& text, bool words = false) {
    return (words ? "<td class=\"text\">" : "<td>") + text + "</td>";
}

// Two more digits than the bar is sure of would say nothing.
std::string told(double value) {
    return std::isfinite(value) ? significant(value, 3) : "not known";
}

std::string bar_of(const FoundIndex& place) {
    return place.resolved && std::isfinite(place.error)
               ? "&plusmn;&#8239;" + significant(place.error, 2)
               : "not resolved";
}

std::string load_of(const std::optional<FoundEdgeFailure>& failure) {
    if (!failure) {
        return "";
    }
    const std::string load = told(failure->load.value) + " " + failure->load.unit;
    return escaped(failure->why_not.empty() ? load : load + ": " + failure->why_not);
}

std::string row(const std::string& name, const FoundIndex& place,
                const std::optional<FoundEdgeFailure>& failure) {
    const std::string where = fixed(place.x_mm, 0) + ", " + fixed(place.y_mm, 0) +
                              (place.at_clamp ? ", at a foot" : "") +
                              (place.at_outline ? ", at the outline" : "");
    return "<tr><th scope=\"row\">" + escaped(name) + "</th>" + index_cell(told(place.index)) +
           index_cell(bar_of(place)) + index_cell(where, true) +
           index_cell(escaped(place.layer) + ", " + fixed(place.ply_deg, 0), true) +
           index_cell(escaped(place.mode), true) + index_cell(load_of(failure), true) + "</tr>\n";
}

} // namespace

std::string edge_strength_table(const std::vector<FoundEdgeStrength>& conditions) {
    if (conditions.empty()) {
        return "";
    }
    std::string rows;
    for (const FoundEdgeStrength& one : conditions) {
        if (!one.no_equilibrium.empty()) {
            rows += "<tr><th scope=\"row\">" + escaped(one.name) +
                    "</th><td colspan=\"6\" class=\"text\"><span class=\"alert\">no "
                    "equilibrium</span>: " +
                    escaped(one.no_equilibrium) + "</td></tr>\n";
            continue;
        }
        if (one.before_load.value_or(false)) {
            rows += "<tr><th scope=\"row\">" + escaped(one.name) +
                    "</th><td colspan=\"6\" class=\"text\"><span class=\"alert\">over the limit "
                    "before any load</span></td></tr>\n";
        }
        const FailureLoads loads = one.to_failure.value_or(FailureLoads{});
        if (one.first) {
            rows += row(one.name, *one.first, loads.first);
        }
        if (one.away) {
            rows += row("away from feet and snow", *one.away, {});
        }
        if (one.breaks) {
            rows += row("breaks", *one.breaks, loads.breaks);
        }
    }
    return "<h3>On its edge</h3>\n<p>The highest failure index at each load: 1 is failure. Contact "
           "changes with the load, so that the index is no multiple of it.</p>\n" +
           html_table("Failure index on the edge", {"condition", "index", "error bar"}, rows,
                      {"x, y in mm", "layer, ply", "in what way", "load at which it is 1"}) +
           "\n";
}

} // namespace vrid
