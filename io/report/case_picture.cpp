// A small drawing of how a bench case holds and loads the board: flex from the side, twist from
// above, the nose to the right. Not to scale.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "io/report/report.hpp"
#include "io/report/svg.hpp"

namespace vrid {
namespace {

constexpr double width = 240, height = 84; // [px]
constexpr double middle = 44;              // of the board [px]
constexpr double tail = 48, rear_foot = 84, centre = 120, front_foot = 156, nose = 192;
constexpr double foot_half = 9, bar_half = 30;

double half_width_at(double x) {
    constexpr double waist = 17, more = 5; // straight-cut waist, wider at the contact lines
    const double out = std::min(1.0, std::abs(x - centre) / (nose - centre));
    const double beyond = std::max(0.0, std::abs(x - centre) - (nose - centre));
    constexpr double tip = 34;
    return (waist + more * out * out) * std::sqrt(std::max(0.0, 1 - std::pow(beyond / tip, 2)));
}

void draw_from_above(Svg& svg) {
    Points upper;
    Points lower;
    for (double x = 14; x <= width - 14; x += 2) {
        upper.emplace_back(x, middle - half_width_at(x));
        lower.emplace_back(x, middle + half_width_at(x));
    }
    upper.insert(upper.end(), lower.rbegin(), lower.rend());
    svg.polygon(upper, "board");
    svg.polygon(upper, "outline");
    for (const double x : {tail, nose}) {
        svg.line(x, middle - half_width_at(x), x, middle + half_width_at(x), "contact");
    }
}

/// Height of the board seen from the side: camber, tips bent up.
double side_height(double x) {
    const double out = std::abs(x - centre) / (nose - centre);
    return middle + (out < 1 ? -4 * (1 - out * out) : -26 * std::pow(out - 1, 1.5));
}

void draw_from_the_side(Svg& svg) {
    Points line;
    for (double x = 14; x <= width - 14; x += 2) {
        line.emplace_back(x, side_height(x));
    }
    svg.polyline(line, "outline side");
}

void draw_hatched(Svg& svg, double x0, double y0, double x1, double y1) {
    svg.rectangle(x0, y0, x1 - x0, y1 - y0, "clamp");
    constexpr double step = 5;
    for (double at = x0 + step; at < x1 + (y1 - y0); at += step) {
        const double right = std::min(at, x1);
        const double left = std::max(x0, at - (y1 - y0));
        svg.line(right, y0 + (at - right), left, y0 + (at - left), "hatch");
    }
}

void draw_head(Svg& svg, double x, double y, double dx, double dy) {
    constexpr double wide = 0.55, size = 8;
    svg.polygon({{x, y},
                 {x - size * dx + size * wide * dy, y - size * dy - size * wide * dx},
                 {x - size * dx - size * wide * dy, y - size * dy + size * wide * dx}},
                "load");
}

/// Up (-1) or down (1), ending at the board.
void draw_force(Svg& svg, double x, double sign) {
    const double y = side_height(x) - sign * 3;
    svg.line(x, y - sign * 26, x, y - sign * 6, "load");
    draw_head(svg, x, y, 0, sign);
}

void draw_support(Svg& svg, double x) {
    const double y = side_height(x) + 2;
    svg.polygon({{x, y}, {x - 7, y + 13}, {x + 7, y + 13}}, "clamp");
    svg.line(x - 11, y + 13, x + 11, y + 13, "hatch");
}

void draw_vice(Svg& svg, double x) {
    const double y = side_height(x);
    draw_hatched(svg, x - foot_half, y - 17, x + foot_half, y - 3);
    draw_hatched(svg, x - foot_half, y + 3, x + foot_half, y + 17);
}

void draw_clamped_strip(Svg& svg, double x) {
    const double half = half_width_at(x);
    draw_hatched(svg, x - foot_half, middle - half, x + foot_half, middle + half);
}

void draw_bar(Svg& svg, double x) {
    svg.line(x, middle - bar_half, x, middle + bar_half, "bar-across");
}

/// Round the long axis: over the board towards the reader's right side, as a half ellipse.
void draw_turn(Svg& svg, double x) {
    constexpr double wide = 13, steps = 24;
    Points arc;
    for (int i = 0; i <= static_cast<int>(steps); ++i) {
        const double angle = std::numbers::pi * (0.5 - i / steps);
        arc.emplace_back(x + 6 + wide * std::cos(angle), middle - bar_half * std::sin(angle));
    }
    svg.polyline(arc, "load");
    draw_head(svg, arc.back().first - 2, arc.back().second, -1, 0);
}

/// The drawing without its frame; false where the case has none.
bool draw_case(Svg& svg, const std::string& name) {
    const bool at_nose = name.starts_with("nose-");
    if (name == "centre-flex") {
        draw_from_the_side(svg);
        draw_support(svg, tail);
        draw_support(svg, nose);
        draw_force(svg, centre, 1);
    } else if (name == "nose-flex" || name == "tail-flex") {
        draw_from_the_side(svg);
        draw_vice(svg, at_nose ? front_foot : rear_foot);
        draw_force(svg, at_nose ? nose : tail, -1);
    } else if (name == "nose-twist" || name == "tail-twist") {
        draw_from_above(svg);
        draw_clamped_strip(svg, at_nose ? front_foot : rear_foot);
        draw_bar(svg, at_nose ? nose : tail);
        draw_turn(svg, at_nose ? nose : tail);
    } else if (name == "stance-twist") {
        draw_from_above(svg);
        draw_clamped_strip(svg, rear_foot);
        svg.rectangle(front_foot - foot_half, middle - half_width_at(front_foot), 2 * foot_half,
                      2 * half_width_at(front_foot), "strip");
        draw_turn(svg, front_foot + 4);
    } else if (name == "full-twist") {
        draw_from_above(svg);
        draw_bar(svg, tail);
        draw_hatched(svg, tail - 7, middle - bar_half - 5, tail + 7, middle - bar_half + 4);
        draw_hatched(svg, tail - 7, middle + bar_half - 4, tail + 7, middle + bar_half + 5);
        draw_bar(svg, nose);
        draw_turn(svg, nose);
    } else if (name == "free-modes" || name == "release" || name == "cold") {
        draw_from_above(svg);
        svg.text(centre, middle + 4, name == "free-modes" ? "free, vibrating" : "free, cooled",
                 "middle", "note");
    } else {
        return false;
    }
    return true;
}

} // namespace

std::string case_picture(const std::string& name, const std::string& id) {
    Svg svg(width, height);
    return draw_case(svg, name) ? svg.markup(id, "How " + name + " holds and loads the board",
                                             "Hatched: held. Arrow: loaded. The nose is right.")
                                : "";
}

} // namespace vrid
