// What the board is made of, layer by layer.
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

std::string plies_text(const LaidLayer& layer) {
    return joined(layer.plies, "<br>", [](const LaidPly& ply) {
        return escaped(ply.of) + " " + csv_cell(ply.angle_deg) + "&deg;, " + amount_text(ply);
    });
}

std::string text_cell(const std::string& html) {
    return "<td class=\"text\">" + html + "</td>";
}

} // namespace

std::string layup_table(const Drawing& drawing) {
    if (drawing.layup.value.empty()) {
        return "";
    }
    std::string html =
        "<h3>Layup, from the running surface upwards</h3>\n<div class=\"scroll layup\" "
        "tabindex=\"0\" role=\"region\" aria-label=\"Layup\"><table><thead><tr>"
        "<th scope=\"col\">layer</th><th class=\"text\" scope=\"col\">made of</th>"
        "<th class=\"text\" scope=\"col\">plies upwards: angle, fibre weight in g/m&sup2;</th>"
        "<th class=\"text\" scope=\"col\">resin, g/m&sup2;</th><th scope=\"col\">thickness, mm</th>"
        "<th class=\"text\" scope=\"col\">where, mm</th></tr></thead><tbody>\n";
    for (const LaidLayer& layer : drawing.layup.value) {
        html += "<tr><th scope=\"row\">" + escaped(layer.layer) + "</th>" +
                text_cell(escaped(layer.of)) + text_cell(plies_text(layer)) +
                text_cell(layer.resin.empty() ? ""
                                              : escaped(layer.resin) + " " +
                                                    significant(layer.resin_gsm.value_or(0), 3)) +
                "<td>" + (layer.thickness_mm ? significant(*layer.thickness_mm, 3) : "") + "</td>" +
                text_cell(escaped(layer.where)) + "</tr>\n";
    }
    return html + "</tbody></table></div>\n<p class=\"sub\">Ply angles as they lie in the board, "
                  "from +x towards +y seen from above; of a ribbon against its own direction. "
                  "Resin and thickness are nominal.</p>\n";
}

} // namespace vrid
