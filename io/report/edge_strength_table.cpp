#include <algorithm>
#include <cmath>

#include "io/report/found_strength.hpp"
#include "io/report/svg.hpp"

namespace vrid {

namespace {

std::string cell(const std::string& text, bool words = false) {
    return (words ? "<td class=\"text\">" : "<td>") + text + "</td>";
}

// Two more digits than the bar is sure of would say nothing.
std::string told(const BenchQuantity& quantity) {
    return std::isfinite(quantity.value) ? significant(quantity.value, 3) : "not known";
}

std::string bar_of(const FoundPlace& place) {
    return place.resolved && std::isfinite(place.load.error)
               ? "&plusmn;&#8239;" + significant(place.load.error, 2)
               : "not resolved";
}

std::string load_of(const std::optional<FoundEdgeFailure>& failure) {
    if (!failure) {
        return "";
    }
    const std::string load = told(failure->load) + " " + failure->load.unit;
    return escaped(failure->why_not.empty() ? load : load + ": " + failure->why_not);
}

std::string row(const std::string& name, const FoundPlace& place,
                const std::optional<FoundEdgeFailure>& failure) {
    const std::string where = fixed(place.x, 0) + ", " + fixed(place.y, 0) +
                              (place.at_clamp ? ", at a foot" : "") +
                              (place.at_outline ? ", at the outline" : "");
    return "<tr><th scope=\"row\">" + escaped(name) + "</th>" + cell(told(place.load)) +
           cell(bar_of(place)) + cell(where, true) +
           cell(escaped(place.layer) + ", " + fixed(place.angle, 0), true) +
           cell(escaped(place.mode), true) + cell(load_of(failure), true) + "</tr>\n";
}

} // namespace

std::string edge_strength_table(const std::vector<FoundEdgeStrength>& conditions) {
    if (conditions.empty()) {
        return "";
    }
    std::string html =
        "<h3>On its edge</h3>\n<p>The highest failure index at each load: 1 is failure. Contact "
        "changes with the load, so that the index is no multiple of it.</p>\n"
        "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Failure index on the "
        "edge\"><table><thead><tr><th scope=\"col\">condition</th><th scope=\"col\">index</th>"
        "<th scope=\"col\">error bar</th>";
    for (const char* column :
         {"x, y in mm", "layer, ply", "in what way", "load at which it is 1"}) {
        html += std::string("<th scope=\"col\" class=\"text\">") + column + "</th>";
    }
    html += "</tr></thead><tbody>\n";
    for (const FoundEdgeStrength& one : conditions) {
        if (!one.no_equilibrium.empty()) {
            html += "<tr><th scope=\"row\">" + escaped(one.name) +
                    "</th><td colspan=\"6\" class=\"text\"><span class=\"alert\">no "
                    "equilibrium</span>: " +
                    escaped(one.no_equilibrium) + "</td></tr>\n";
            continue;
        }
        if (one.before_load) {
            html += "<tr><th scope=\"row\">" + escaped(one.name) +
                    "</th><td colspan=\"6\" class=\"text\"><span class=\"alert\">over the limit "
                    "before any load</span></td></tr>\n";
        }
        if (one.first) {
            html += row(one.name, *one.first, one.to_first);
        }
        if (one.away) {
            html += row("away from feet and snow", *one.away, {});
        }
        if (one.breaks) {
            html += row("breaks", *one.breaks, one.to_break);
        }
    }
    return html + "</tbody></table></div>\n";
}

} // namespace vrid
