#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "io/report/svg.hpp"
#include "io/sheet/page_table.hpp"
#include "io/sheet/sheet_style.hpp"
#include "io/sheet/shop_sheet.hpp"
#include "io/write/board_figures.hpp"
#include "io/write/caution.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr double page_width = 178; // of what an A4 page takes [mm]

std::string page_mm(double value) {
    return fixed(from_si("x_mm", value), 1);
}

std::string path_of(const Region& region, const std::string& kind) {
    std::string all = "<path class=\"" + kind + "\" fill-rule=\"evenodd\" d=\"";
    for (const Loop& loop : region.loops) {
        for (std::size_t i = 0; i < loop.size(); ++i) {
            all += (i == 0 ? "M" : "L") + page_mm(loop[i].x()) + "," + page_mm(-loop[i].y());
        }
        all += "Z";
    }
    return all + "\"/>";
}

// The outline with a piece in it, not to scale.
std::string picture(const Region& outline, const Region& piece, double width) {
    const Extent box = extent(outline);
    const double length = from_si("x_mm", box.x[1] - box.x[0]);
    const double breadth = from_si("x_mm", box.y[1] - box.y[0]);
    const double edge = length / 100;
    return "<svg width=\"" + fixed(width, 1) + "mm\" height=\"" +
           fixed(width * (breadth + 2 * edge) / (length + 2 * edge), 2) + "mm\" viewBox=\"" +
           fixed(from_si("x_mm", box.x[0]) - edge, 1) + " " +
           fixed(-from_si("x_mm", box.y[1]) - edge, 1) + " " + fixed(length + 2 * edge, 1) + " " +
           fixed(breadth + 2 * edge, 1) + "\">" + path_of(piece, "fill") +
           path_of(outline, "outline") + "</svg>";
}

/// A small picture of where a piece lies on the board.
std::string place_picture(const Region& outline, const Region& piece) {
    const Extent box = extent(outline);
    const double coarse = (box.x[1] - box.x[0]) / 800;
    return picture(simplified(outline, coarse), simplified(piece, coarse), 34);
}

/// What stands at the top: the outline, its sizes, who built it.
std::string first_page(const ShopSheet& sheet) {
    const OutlineFigures outline = outline_figures(sheet.board);
    const Region shape = simplified(planform_region(sheet.board.planform), 1e-4);
    PageTable sizes({"length [mm]", "running length [mm]", "tail [mm]", "waist [mm]", "nose [mm]",
                     "area [cm2]", "weight [g]"},
                    {});
    sizes.row({page_mm(outline.length), page_mm(outline.running_length),
               page_mm(outline.tail_width), page_mm(outline.waist_width),
               page_mm(outline.nose_width), fixed(1e4 * outline.area, 1),
               fixed(from_si("mass_g", sheet.steps.back().sum), 0)});
    PageTable who({"board number", "built by", "date"}, {});
    who.row({"&nbsp;<br>&nbsp;", "", ""});
    return "<p>Shop sheet, for one board. Sizes in mm; x runs to the nose from the middle of the "
           "running length.</p>\n" +
           picture(shape, {}, page_width) + sizes.markup() + who.markup();
}

std::string mm(double value, int decimals) {
    return fixed(from_si("x_mm", value), decimals);
}

std::string grams(double value, int decimals = 1) {
    return fixed(from_si("mass_g", value), decimals);
}

std::string pieces_table(const ShopSheet& sheet) {
    const Region outline = planform_region(sheet.board.planform);
    PageTable table({"no.", "layer", "made of", "on the board", "along the roll [deg]", "count",
                     "length [mm]", "width [mm]", "area [cm2]", "dry [g]"},
                    {1, 2, 3}, {"weighed [g]"});
    for (std::size_t i = 0; i < sheet.pieces.size(); ++i) {
        const CutPiece& piece = sheet.pieces[i];
        const std::string roll = piece.fabric ? fixed(roll_degrees(piece), 1) +
                                                    (piece.turned_over ? ", turned over" : "")
                                              : "";
        table.row({std::to_string(i + 1), escaped(piece_name(piece)), escaped(piece.made_of),
                   place_picture(outline, piece.shape), roll, "1", mm(piece.length, 1),
                   mm(piece.width, 1), fixed(piece.area * 1e4, 1), grams(piece.dry_mass)});
    }
    return table.markup();
}

std::string rolls_table(const ShopSheet& sheet) {
    if (sheet.rolls.empty()) {
        return "";
    }
    PageTable table({"fabric", "roll [mm]", "net [m2]", "roll used [m]", "waste [%]", ""}, {0, 5});
    for (const RollUse& roll : sheet.rolls) {
        const bool told = roll.roll_width > 0;
        table.row(
            {escaped(roll.fabric), told ? mm(roll.roll_width, 0) : "not given", fixed(roll.area, 3),
             told ? fixed(roll.length, 2) : "", told ? fixed(100 * roll.waste, 0) : "",
             roll.joined > 0 ? std::to_string(roll.joined) + " wider than the roll: join" : ""});
    }
    return "<h3>Rolls, for " + std::to_string(sheet.options.boards) + " board" +
           (sheet.options.boards == 1 ? "" : "s") +
           "</h3>\n<p>Rectangles in rows across the roll, none turned; a tighter layout may be "
           "found by hand.</p>\n" +
           table.markup();
}

std::string edge_table(const ShopSheet& sheet) {
    if (sheet.edges.empty()) {
        return "";
    }
    PageTable table({"run", "from x [mm]", "to x [mm]", "length [mm]", "bends, sum [deg]",
                     "tightest radius [mm]", "at x [mm]", "sharp corners"},
                    {}, {"measured [mm]"});
    for (std::size_t i = 0; i < sheet.edges.size(); ++i) {
        const EdgeRun& run = sheet.edges[i];
        const bool bent = std::isfinite(run.tightest);
        table.row({std::to_string(i + 1), mm(run.from_x, 1), mm(run.to_x, 1), mm(run.length, 1),
                   fixed(from_si("angle_deg", run.turn), 1),
                   bent ? mm(run.tightest, 1) : "straight", bent ? mm(run.tightest_x, 1) : "",
                   std::to_string(run.corners)});
    }
    return "<h3>Edge: " + escaped(sheet.board.edge->material) + ", measured on the outside</h3>\n" +
           table.markup();
}

std::string strips_table(const CoreBlank& core) {
    PageTable table({"wood", "count", "width [mm]", "length [mm]", "where x [mm]", "beyond"},
                    {0, 4, 5});
    for (const StripCut& strip : core.strips) {
        table.row({escaped(strip.material), std::to_string(strip.count), mm(strip.width, 1),
                   mm(strip.length, 1),
                   strip.x ? mm((*strip.x)[0], 1) + " to " + mm((*strip.x)[1], 1) : "all along",
                   escaped(strip.fill)});
    }
    return "<h3>Strips of the core</h3>\n" + table.markup();
}

// What lies beside the blank, in words.
std::string beside_core(const Board& board) {
    std::string words;
    if (board.sidewall) {
        words += "Sidewall: " + escaped(board.sidewall->material) + ", " +
                 mm(board.sidewall->width, 1) + " mm wide along the outline";
        words += board.sidewall->x ? ", x from " + mm((*board.sidewall->x)[0], 1) + " to " +
                                         mm((*board.sidewall->x)[1], 1) + " mm. "
                                   : ", all round. ";
    }
    if (board.tip_spacer) {
        words += "Tip spacers: " + escaped(board.tip_spacer->material) +
                 ", beyond x = " + mm(board.tip_spacer->x[0], 1) + " and " +
                 mm(board.tip_spacer->x[1], 1) + " mm.";
    }
    return words.empty() ? "" : "<p>" + words + "</p>\n";
}

std::string sanding_section(const ShopSheet& sheet) {
    const CoreBlank& core = *sheet.core;
    std::string all = "<p>Blank: " + mm(core.size.x[1] - core.size.x[0], 1) + " &times; " +
                      mm(core.size.y[1] - core.size.y[0], 1) + " &times; " + mm(core.thickest, 2) +
                      " mm, from x = " + mm(core.size.x[0], 1) + " to " + mm(core.size.x[1], 1) +
                      " mm. Thickness on the centre line; bold rows are stations of the board "
                      "file.</p>\n" +
                      beside_core(sheet.board);
    constexpr std::size_t rows = 40; // of a table on one page
    std::vector<std::string> tables;
    for (std::size_t from = 0; from < core.sanding.size(); from += rows) {
        PageTable table({"from tail end [mm]", "x [mm]", "thickness [mm]", "slope [mm/m]"}, {},
                        {"measured"});
        const std::size_t to = std::min(core.sanding.size(), from + rows);
        for (std::size_t i = from; i < to; ++i) {
            const SandingRow& row = core.sanding[i];
            table.row({mm(row.from_end, 1), mm(row.x, 1), mm(row.thickness, 2), mm(row.slope, 2)},
                      row.station ? "station" : "");
        }
        tables.push_back(table.markup());
    }
    for (std::size_t i = 0; i < tables.size(); i += 2) {
        all += "<div class=\"side\">" + tables[i] + (i + 1 < tables.size() ? tables[i + 1] : "") +
               "</div>\n";
    }
    return all + strips_table(core);
}

std::string resin_table(const ShopSheet& sheet) {
    const std::vector<ResinRow> rows = resin_rows(sheet);
    if (rows.empty()) {
        return "<p>No layer is wetted with resin.</p>\n";
    }
    const int boards = sheet.options.boards;
    PageTable table({"layer", "resin", "one board [g]",
                     std::to_string(boards) + (boards == 1 ? " board [g]" : " boards [g]")},
                    {0, 1}, {"mixed [g]"});
    double sum = 0;
    const auto add = [&](const std::string& layer, const std::string& resin, double mass,
                         const std::string& kind) {
        table.row({escaped(layer), escaped(resin), grams(mass), grams(mass * boards, 0)}, kind);
    };
    for (const ResinRow& row : rows) {
        add(row.layer, row.resin, row.mass, "");
        sum += row.mass;
    }
    add("sum", "", sum, "station");
    return "<p>What stays in the board, from the fibre volume fractions and the glue lines; what "
           "is squeezed out or left in the pot comes on top.</p>\n" +
           table.markup();
}

std::string weights_table(const ShopSheet& sheet) {
    PageTable table({"step", "lay up", "adds [g]", "board so far [g]", "usual spread [g]"}, {1},
                    {"weighed [g]", "difference"});
    for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
        const LayUpStep& step = sheet.steps[i];
        table.row({std::to_string(i + 1), escaped(step.name), grams(step.mass), grams(step.sum),
                   "&plusmn; " + grams(step.spread)});
    }
    return "<p>Cured weights, trimmed to the outline, with the resin of each layer. The spread is "
           "one "
           "standard deviation of the sum from the board's tolerances: about one board in three "
           "lies "
           "outside it, one in twenty outside twice as much.</p>\n" +
           table.markup();
}

std::string mirror_warnings(const ShopSheet& sheet) {
    std::string all;
    for (const std::string& note : mirror_notes(sheet)) {
        all += "<div class=\"caution\"><b>Warning.</b> " + escaped(note) + "</div>\n";
    }
    return all;
}

} // namespace

std::string sheet_html(const ShopSheet& sheet) {
    const Board& board = sheet.board;
    std::string told = "file " + escaped(board.hash);
    told += sheet.options.date.empty() ? "" : "<br>of " + escaped(sheet.options.date);
    std::ostringstream out;
    out << "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        << "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n<title>"
        << escaped(board.name) << ": shop sheet</title>\n<style>\n"
        << sheet_style << "</style>\n</head>\n<body>\n";
    const auto section = [&](const std::string& title, const std::string& body, bool first) {
        out << "<section" << (first ? " class=\"first\"" : "") << ">\n<header><"
            << (first ? "h1>" : "h2>") << escaped(first ? board.name : board.name + ": " + title)
            << "</" << (first ? "h1>" : "h2>") << "<span>" << told << "</span></header>\n"
            << body << "</section>\n";
    };
    section("",
            first_page(sheet) + "<div class=\"caution\"><b>Caution.</b> " + std::string(caution) +
                "</div>\n<h3>Weight at each step</h3>\n" + weights_table(sheet),
            true);
    if (sheet.core) {
        section("sanding", sanding_section(sheet), false);
    }
    section(
        "cutting",
        "<p>Net pieces as they lie on the board, seen from above, the nose to the right; add what "
        "you trim. Each is drawn true to scale in its own .svg file.</p>\n" +
            mirror_warnings(sheet) + pieces_table(sheet) + rolls_table(sheet) + edge_table(sheet),
        false);
    section("resin", resin_table(sheet), false);
    if (sheet.press) {
        const bool wanted = sheet.press->line == PressLine::wanted_shape;
        section(wanted ? "rest shape" : "mould", press_section(sheet), false);
    }
    out << "</body>\n</html>\n";
    return out.str();
}

} // namespace vrid
