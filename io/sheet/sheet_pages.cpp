#include "io/sheet/sheet_pages.hpp"

#include <utility>

#include "io/report/svg.hpp"
#include "io/write/board_figures.hpp"
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

} // namespace

PageTable::PageTable(std::vector<std::string> titles, std::set<std::size_t> texts,
                     std::vector<std::string> boxes)
    : titles_(std::move(titles)), boxes_(std::move(boxes)), texts_(std::move(texts)) {}

void PageTable::row(const std::vector<std::string>& cells, const std::string& kind) {
    rows_ += kind.empty() ? "<tr>" : "<tr class=\"" + kind + "\">";
    for (std::size_t i = 0; i < cells.size(); ++i) {
        rows_ += (texts_.contains(i) ? "<td class=\"text\">" : "<td>") + cells[i] + "</td>";
    }
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
        rows_ += "<td class=\"box\"></td>";
    }
    rows_ += "</tr>\n";
}

std::string PageTable::markup() const {
    std::string head = "<table>\n<thead><tr>";
    for (std::size_t i = 0; i < titles_.size(); ++i) {
        head +=
            (texts_.contains(i) ? "<th class=\"text\">" : "<th>") + escaped(titles_[i]) + "</th>";
    }
    for (const std::string& box : boxes_) {
        head += "<th class=\"box\">" + escaped(box) + "</th>";
    }
    return head + "</tr></thead>\n<tbody>\n" + rows_ + "</tbody>\n</table>\n";
}

std::string place_picture(const Region& outline, const Region& piece) {
    const Extent box = extent(outline);
    const double coarse = (box.x[1] - box.x[0]) / 800;
    return picture(simplified(outline, coarse), simplified(piece, coarse), 34);
}

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

} // namespace vrid
