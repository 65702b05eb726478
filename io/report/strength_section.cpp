#include <algorithm>
#include <array>
#include <cmath>

#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/strength_pictures.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr double strength_head = 62; // for labels of the marked places
constexpr int load_shades = 6;
// Multiples of the least load of all at which the colour changes, the strongest colour first.
constexpr std::array<double, load_shades - 1> steps{1.25, 1.6, 2.5, 4, 10};

int shade_of(double load, double least) {
    int step = 0;
    while (step < load_shades - 1 && load >= steps.at(static_cast<std::size_t>(step)) * least) {
        ++step;
    }
    return load_shades - 1 - step;
}

struct StrengthFrame {
    Axis x;
    double scale, middle; // of y [px/mm], [px]
    [[nodiscard]] double y(double mm) const { return middle - mm * scale; }
};

StrengthFrame frame_of(const StrengthGrid& grid) {
    const double scale =
        (picture_width - stations_left - stations_right) / (grid.x_mm.back() - grid.x_mm.front());
    const double top = *std::ranges::max_element(grid.left_mm);
    return {{grid.x_mm.front(), grid.x_mm.back(), stations_left, picture_width - stations_right},
            scale,
            strength_head + top * scale};
}

// Neighbours of one colour along a row are one polygon.
void draw_cells(Svg& svg, const StrengthGrid& grid, const FoundCaseStrength& one,
                const StrengthFrame& frame, double least) {
    const auto rows = static_cast<double>(one.lowest_load->size());
    for (std::size_t row = 0; row < one.lowest_load->size(); ++row) {
        const std::vector<double>& loads = (*one.lowest_load)[row];
        for (std::size_t from = 0; from < loads.size();) {
            const int shade = std::isnan(loads[from]) ? -1 : shade_of(loads[from], least);
            std::size_t to = from + 1;
            while (to < loads.size() &&
                   (std::isnan(loads[to]) ? -1 : shade_of(loads[to], least)) == shade) {
                ++to;
            }
            Points lower;
            Points upper;
            for (std::size_t i = from; i <= to; ++i) {
                const double wide = grid.left_mm[i] - grid.right_mm[i];
                const auto across = [&](double share) {
                    return frame.y(grid.right_mm[i] + share * wide);
                };
                lower.emplace_back(frame.x.at(grid.x_mm[i]),
                                   across(static_cast<double>(row) / rows));
                upper.emplace_back(frame.x.at(grid.x_mm[i]),
                                   across(static_cast<double>(row + 1) / rows));
            }
            lower.insert(lower.end(), upper.rbegin(), upper.rend());
            if (shade >= 0) {
                svg.polygon(lower, "M" + std::to_string(shade), "shape-rendering=\"crispEdges\"");
            }
            from = to;
        }
    }
}

// The board's own outline if it is known, else along the cells.
Points outline_of(const StrengthGrid& grid, const Points& drawn, const StrengthFrame& frame) {
    Points outline;
    for (const auto& [x, y] : drawn) {
        outline.emplace_back(frame.x.at(x), frame.y(y));
    }
    for (std::size_t i = 0; i < grid.x_mm.size() && drawn.empty(); ++i) {
        outline.emplace_back(frame.x.at(grid.x_mm[i]), frame.y(grid.right_mm[i]));
    }
    for (std::size_t i = grid.x_mm.size(); i-- > 0 && drawn.empty();) {
        outline.emplace_back(frame.x.at(grid.x_mm[i]), frame.y(grid.left_mm[i]));
    }
    return outline;
}

std::string ply_words(const FoundPlace& place) {
    return place.layer + ", ply " + std::to_string(place.ply) + " at " + short_text(place.ply_deg) +
           " deg";
}

std::string load_words(const FoundPlace& place) {
    return significant(place.load.value, 4) + " " + place.load.unit;
}

struct FailureMark {
    std::string name;
    const FoundPlace* place;
};

std::vector<FailureMark> marks_of(const FoundCaseStrength& one) {
    std::vector<FailureMark> marks;
    const auto same = [](const FoundPlace& a, const FoundPlace& b) {
        return a.x_mm == b.x_mm && a.y_mm == b.y_mm && a.mode == b.mode && a.layer == b.layer;
    };
    marks.push_back({"first", &*one.first});
    if (one.away && !same(*one.away, *one.first)) {
        marks.push_back({"away from clamps", &*one.away});
    }
    if (one.breaks && !same(*one.breaks, *one.first)) {
        marks.push_back({"breaks", &*one.breaks});
    }
    return marks;
}

// Labels stand in lines above the board, each with a thin line to its place.
void draw_marks(Svg& svg, const std::vector<FailureMark>& marks, const StrengthFrame& frame) {
    double line = 14;
    for (const FailureMark& mark : marks) {
        const FoundPlace& place = *mark.place;
        const double x = frame.x.at(place.x_mm);
        const std::string label = mark.name + " " + load_words(place) + ": " + place.layer + ", " +
                                  place.mode + (place.at_clamp ? ", at the clamp" : "");
        constexpr double letter = 6.2; // [px]
        const double wide = letter * static_cast<double>(label.size());
        const bool before = x + wide > picture_width;
        svg.line(x, line + 3, x, frame.y(place.y_mm), "leader");
        svg.text(before ? x - 5 : x + 5, line, label, before ? "end" : "start", "label");
        line += 16;
    }
    for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark) { // the first above the others
        const FoundPlace& place = *mark->place;
        for (const double y : {place.y_mm, -place.y_mm}) {
            if (y == place.y_mm || place.both_sides) {
                svg.circle(frame.x.at(place.x_mm), frame.y(y), 4.5,
                           mark->name == "first" ? "misfit" : "before");
            }
        }
    }
}

std::string scale_list(double least, const std::string& unit) {
    std::string all = "<ul class=\"keys\">";
    for (int step = 0; step < load_shades; ++step) {
        const auto at = static_cast<std::size_t>(step);
        const std::string low = significant(step == 0 ? least : least * steps.at(at - 1), 3);
        all +=
            "<li><span class=\"key M" + std::to_string(load_shades - 1 - step) + "\"></span>" +
            low +
            (step == load_shades - 1 ? " " + unit + " and more"
                                     : " to " + significant(least * steps.at(at), 3) + " " + unit) +
            "</li>";
    }
    return all + "<li>no colour: nothing gives there</li></ul>\n";
}

std::string place_row(const std::string& name, const FoundPlace& place) {
    const std::string bar =
        place.resolved
            ? "&plusmn;&#8239;" + significant(100 * place.load.error / place.load.value, 2) + " %"
            : "not resolved";
    const auto cell = [](const std::string& text) {
        return "<td class=\"text\">" + text + "</td>";
    };
    return "<tr><th scope=\"row\">" + name + "</th><td>" + escaped(load_words(place)) +
           "</td><td class=\"bar\">" + (place.load.value > 0 ? bar : "") + "</td>" +
           cell(place.sign > 0 ? "as the case" : "against it") +
           cell(fixed(place.x_mm, 0) + ", " + (place.both_sides ? "&plusmn;" : "") +
                fixed(place.both_sides ? std::abs(place.y_mm) : place.y_mm, 0)) +
           cell(escaped(ply_words(place))) +
           cell(escaped(place.mode) + (place.at_clamp ? ", at the clamp" : "") +
                (place.at_outline ? ", at the outline" : "")) +
           "</tr>\n";
}

std::string places_table(const FoundCaseStrength& one) {
    std::string rows;
    for (const FailureMark& mark : marks_of(one)) {
        rows += place_row(mark.name, *mark.place);
    }
    return html_table("Places of " + escaped(one.name), {escaped(one.name), "load", "error bar"},
                      rows, {"direction", "x, y in mm", "layer, ply", "in what way"}) +
           "\n";
}

} // namespace

std::string strength_map(const StrengthFindings& strength, const FoundCaseStrength& one,
                         const std::vector<std::pair<double, double>>& outline,
                         const std::string& id) {
    const double least = one.first->load.value;
    if (!strength.grid || !one.lowest_load || one.lowest_load->empty() || !(least > 0)) {
        return "";
    }
    const StrengthGrid& grid = *strength.grid;
    const StrengthFrame frame = frame_of(grid);
    const double lowest = *std::ranges::min_element(grid.right_mm);
    const double bottom = frame.y(lowest);
    Svg svg(picture_width, bottom + 24);
    draw_cells(svg, grid, one, frame, least);
    svg.polygon(outline_of(grid, outline, frame), "outline");
    svg.text(stations_left, bottom + 16, "tail", "start", "note");
    svg.text(picture_width - stations_right, bottom + 16, "nose", "end", "note");
    draw_marks(svg, marks_of(one), frame);
    return svg.markup(
               id, one.name + ": the load at which each place gives",
               "The board from above, nose to the right: the stronger the colour, the lower the "
               "load at which a point there gives, in either direction of the load. First " +
                   load_words(*one.first) + " at x " + fixed(one.first->x_mm, 0) + ", y " +
                   fixed(one.first->y_mm, 0) + " mm, " + ply_words(*one.first) + ": " +
                   one.first->mode + ".") +
           scale_list(least, one.first->load.unit);
}

std::string strength_section(const StrengthFindings& strength,
                             const std::vector<std::pair<double, double>>& outline,
                             const std::string& id) {
    const std::vector<FoundCaseStrength> cases = strength.judged();
    const std::vector<FoundEdgeStrength> edge =
        strength.edge.value_or(std::vector<FoundEdgeStrength>{});
    if (cases.empty() && edge.empty()) {
        return "";
    }
    std::string html = "<h3>Where it gives first</h3>\n<p>" + escaped(strength.caution) + "</p>\n";
    if (strength.residual) {
        html += "<p>With the stress that the board has before any load, case " +
                escaped(*strength.residual) + ".</p>\n";
    }
    const std::string names = joined(strength.not_judged());
    if (!names.empty()) {
        html +=
            "<p><span class=\"drift\">Not judged</span>, for want of strengths: " + escaped(names) +
            ". They may give before what is shown.</p>\n";
    }
    int number = 0;
    for (const FoundCaseStrength& one : cases) {
        const std::string own = id + std::to_string(number++);
        html += "<h3>" + escaped(one.name) + "</h3>\n";
        if (one.before_load.value_or(false)) {
            html += "<p class=\"alert\">Over the limit before any load.</p>\n";
        }
        html += places_table(one);
        const std::string pictures = strength_map(strength, one, outline, own + "m");
        html += pictures.empty() ? "" : "<figure>" + pictures + "</figure>\n";
        const std::string stress = stress_picture(one, own + "s");
        html += stress.empty() ? "" : "<figure>" + stress + "</figure>\n";
    }
    return html + edge_strength_table(edge);
}

} // namespace vrid
