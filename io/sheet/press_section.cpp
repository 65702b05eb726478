#include "io/report/svg.hpp"
#include "io/sheet/page_table.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

std::string press_mm(double value, int decimals) {
    return fixed(from_si("x_mm", value), decimals);
}

std::string press_words(const PressHeights& press) {
    switch (press.line) {
    case PressLine::existing_mould:
        return "<p>Heights of the mould that exists, mould_z_mm under [cure] of the board "
               "file.</p>\n";
    case PressLine::wanted_shape:
        return "<p>Heights of the wanted rest shape of the unloaded board. This is no mould line: "
               "the board file has no [cure], so that nothing tells what the press does to the "
               "shape.</p>\n";
    case PressLine::found_mould:
        break;
    }
    std::string words =
        "<p>Heights of the mould that gives the wanted rest shape at room temperature: the wanted "
        "shape minus what the press does to it, as vrid solve finds it for [cure]. Expansions, "
        "the stress-free temperature and the base's modulus are known to 30 % and worse, and so "
        "is what the press does: press one board, measure it, calibrate, then cut the mould "
        "line.</p>\n";
    for (const std::string& warning : press.warnings) {
        words += "<div class=\"caution\"><b>Warning.</b> " + escaped(warning) + "</div>\n";
    }
    return words;
}

} // namespace

std::string press_section(const ShopSheet& sheet) {
    const PressLine line = sheet.press->line;
    const bool found = line == PressLine::found_mould;
    PageTable table(found ? std::vector<std::string>{"x [mm]", "mould [mm]", "wanted [mm]",
                                                     "the press does [mm]"}
                          : std::vector<std::string>{"x [mm]", "height [mm]"},
                    {}, {"measured"});
    for (const PressRow& row : press_rows(sheet)) {
        std::vector<std::string> cells{press_mm(row.x, 1), press_mm(row.height, 2)};
        if (found) {
            cells.push_back(press_mm(row.height + row.change, 2));
            cells.push_back(press_mm(row.change, 2));
        }
        table.row(cells);
    }
    return press_words(*sheet.press) + table.markup();
}

} // namespace vrid
