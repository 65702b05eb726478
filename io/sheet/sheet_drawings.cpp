#include <algorithm>
#include <cmath>
#include <sstream>

#include "io/report/svg.hpp"
#include "io/sheet/shop_sheet.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

constexpr double drawn_within = 2e-6; // of the border [m]
constexpr double margin = 10;         // around the drawing [mm]
constexpr double foot = 34;           // below it, for the check line and words [mm]

double drawn_mm(double value) {
    return from_si("x_mm", value);
}

std::string at(double x, double y) {
    return fixed(x, 4) + "," + fixed(y, 4);
}

/// A drawing in mm: x to the right, y down as SVG has it.
class Drawing {
  public:
    explicit Drawing(const Region& shape) : box_(extent(shape)) {
        left_ = drawn_mm(box_.x[0]) - margin;
        top_ = -drawn_mm(box_.y[1]) - margin;
        bottom_ = -drawn_mm(box_.y[0]) + margin;
        width_ = std::max(drawn_mm(box_.x[1] - box_.x[0]), least_width) + 2 * margin;
    }

    void cut(const Region& shape) {
        body_ << "<path class=\"cut\" fill-rule=\"evenodd\" d=\"";
        for (const Loop& loop : shape.loops) {
            for (std::size_t i = 0; i < loop.size(); ++i) {
                body_ << (i == 0 ? "M" : "L") << at(drawn_mm(loop[i].x()), -drawn_mm(loop[i].y()));
            }
            body_ << "Z";
        }
        body_ << "\"/>\n";
    }

    void line(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
        body_ << "<path class=\"mark\" d=\"M" << at(drawn_mm(a.x()), -drawn_mm(a.y())) << "L"
              << at(drawn_mm(b.x()), -drawn_mm(b.y())) << "\"/>\n";
    }

    void word(const Eigen::Vector2d& p, const std::string& text) {
        body_ << "<text x=\"" << fixed(drawn_mm(p.x()), 2) << "\" y=\""
              << fixed(-drawn_mm(p.y()), 2) << "\">" << escaped(text) << "</text>\n";
    }

    [[nodiscard]] const Extent& box() const { return box_; }

    /// The file, with the line to measure after printing below the shape, the words and a note
    /// under it.
    [[nodiscard]] std::string markup(const std::string& title, const std::string& words,
                                     const std::string& note = "") const {
        const double x = left_ + margin;
        const double y = bottom_ + 8;
        const double height = bottom_ - top_ + foot;
        std::ostringstream out;
        out << "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" << fixed(width_, 4)
            << "mm\" height=\"" << fixed(height, 4) << "mm\" viewBox=\"" << fixed(left_, 4) << ' '
            << fixed(top_, 4) << ' ' << fixed(width_, 4) << ' ' << fixed(height, 4) << "\">\n"
            << "<title>" << escaped(title) << "</title>\n"
            << "<style>.cut{fill:none;stroke:#000;stroke-width:.25}.mark{fill:none;stroke:#000;"
               "stroke-width:.18;stroke-dasharray:4 2}.check{fill:none;stroke:#000;"
               "stroke-width:.25}text{font:4px sans-serif}</style>\n"
            << body_.str() << "<path class=\"check\" d=\"M" << at(x, y - 2) << "L" << at(x, y + 2)
            << "M" << at(x, y) << "L" << at(x + 100, y) << "M" << at(x + 100, y - 2) << "L"
            << at(x + 100, y + 2) << "\"/>\n"
            << "<text x=\"" << fixed(x, 2) << "\" y=\"" << fixed(y + 7, 2)
            << "\">100 mm: measure this line after printing</text>\n"
            << "<text x=\"" << fixed(x, 2) << "\" y=\"" << fixed(y + 13, 2) << "\">"
            << escaped(title) << "</text>\n"
            << "<text x=\"" << fixed(x, 2) << "\" y=\"" << fixed(y + 19, 2) << "\">"
            << escaped(words) << "</text>\n";
        if (!note.empty()) {
            out << "<text x=\"" << fixed(x, 2) << "\" y=\"" << fixed(y + 25, 2) << "\">"
                << escaped(note) << "</text>\n";
        }
        out << "</svg>\n";
        return out.str();
    }

  private:
    static constexpr double least_width = 130; // the check line and its words have room [mm]
    Extent box_;
    double left_ = 0, top_ = 0, bottom_ = 0, width_ = 0; // [mm]
    std::ostringstream body_;
};

std::string points_csv(const Region& shape, bool one_loop) {
    std::ostringstream out;
    out << (one_loop ? "x_mm,y_mm\n" : "loop,x_mm,y_mm\n");
    for (std::size_t k = 0; k < shape.loops.size(); ++k) {
        for (const Eigen::Vector2d& p : shape.loops[k]) {
            out << (one_loop ? "" : std::to_string(k + 1) + ",")
                << at(drawn_mm(p.x()), drawn_mm(p.y())) << '\n';
        }
    }
    return out.str();
}

void mark_station(Drawing& drawing, const Planform& planform, double x, const std::string& word) {
    if (const auto y = y_extent(planform, x)) {
        drawing.line({x, (*y)[0]}, {x, (*y)[1]});
        drawing.word({x + 0.002, (*y)[0] + 0.004}, word);
    }
}

std::string outline_svg(const ShopSheet& sheet, const Region& shape) {
    const Planform& planform = sheet.board.planform;
    Drawing drawing(shape);
    drawing.cut(shape);
    drawing.line({drawing.box().x[0], 0}, {drawing.box().x[1], 0});
    constexpr double inside = 1e-6; // the outline of a coupon ends at its contact stations [m]
    mark_station(drawing, planform, -planform.running_length / 2 + inside, "tail contact");
    mark_station(drawing, planform, 0, "middle, x = 0");
    mark_station(drawing, planform, planform.running_length / 2 - inside, "nose contact");
    if (sheet.board.stance) {
        mark_station(drawing, planform, sheet.board.stance->rear(), "rear foot");
        mark_station(drawing, planform, sheet.board.stance->front(), "front foot");
    }
    return drawing.markup(sheet.board.name + ", outline",
                          "file " + sheet.board.hash +
                              "; the nose is to the right, seen from "
                              "above");
}

std::string piece_svg(const ShopSheet& sheet, const CutPiece& piece, const Region& shape) {
    Drawing drawing(shape);
    drawing.cut(shape);
    std::string words = piece.made_of;
    if (piece.fabric) {
        const Extent& box = drawing.box();
        const Eigen::Vector2d middle((box.x[0] + box.x[1]) / 2, (box.y[0] + box.y[1]) / 2);
        const double half = std::min(0.04, piece.length / 4);
        const Eigen::Vector2d along(std::cos(piece.roll_angle), std::sin(piece.roll_angle));
        const Eigen::Vector2d side(-along.y(), along.x());
        const Eigen::Vector2d tip = middle + half * along;
        drawing.line(middle - half * along, tip);
        drawing.line(tip, tip - half * 0.2 * along + half * 0.08 * side);
        drawing.line(tip, tip - half * 0.2 * along - half * 0.08 * side);
        words += "; arrow: along the roll, " + fixed(roll_degrees(piece), 1) + " deg" +
                 (piece.turned_over ? ", roll turned over" : "");
    }
    return drawing.markup(sheet.board.name + ", " + piece_name(piece),
                          words + "; file " + sheet.board.hash,
                          piece.on_roll ? ""
                                        : "no piece from its roll is this mirror image: see "
                                          "sheet.html");
}

} // namespace

void add_drawings(const ShopSheet& sheet, StagedFiles& files) {
    const Region outline = simplified(planform_region(sheet.board.planform), drawn_within);
    files.add("outline.svg", outline_svg(sheet, outline));
    files.add("outline.csv", points_csv(outline, true));
    for (std::size_t i = 0; i < sheet.pieces.size(); ++i) {
        const Region shape = simplified(sheet.pieces[i].shape, drawn_within);
        const std::string file = piece_file(sheet, i);
        files.add(file + ".svg", piece_svg(sheet, sheet.pieces[i], shape));
        files.add(file + ".csv", points_csv(shape, false));
    }
}

} // namespace vrid
