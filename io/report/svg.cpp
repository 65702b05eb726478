#include "io/report/svg.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"

namespace vrid {

namespace {

std::string list(const Points& points) {
    std::string all;
    for (const auto& [x, y] : points) {
        if (std::isfinite(x) && std::isfinite(y)) {
            all += (all.empty() ? "" : " ") + px(x) + "," + px(y);
        }
    }
    return all;
}

template <class... Numbers> bool all_finite(Numbers... numbers) {
    return (std::isfinite(numbers) && ...);
}

std::string closing(const std::string& element, const std::string& tip) {
    return tip.empty() ? "/>" : "><title>" + escaped(tip) + "</title></" + element + ">";
}

double distance(const std::pair<double, double>& point, const std::pair<double, double>& from,
                const std::pair<double, double>& to) {
    const double dx = to.first - from.first;
    const double dy = to.second - from.second;
    const double px = point.first - from.first;
    const double py = point.second - from.second;
    const double length2 = dx * dx + dy * dy;
    const double along = length2 > 0 ? std::clamp((px * dx + py * dy) / length2, 0.0, 1.0) : 0;
    return std::hypot(px - along * dx, py - along * dy);
}

} // namespace

Points simplified(const Points& line, double tolerance) {
    if (line.size() < 3) {
        return line;
    }
    std::vector<char> kept(line.size(), 0);
    kept.front() = kept.back() = 1;
    std::vector<std::pair<std::size_t, std::size_t>> parts{{0, line.size() - 1}};
    while (!parts.empty()) {
        const auto [from, to] = parts.back();
        parts.pop_back();
        std::size_t farthest = from;
        double most = tolerance;
        for (std::size_t i = from + 1; i < to; ++i) {
            const double d = distance(line[i], line[from], line[to]);
            farthest = d > most ? i : farthest;
            most = std::max(most, d);
        }
        if (farthest != from) {
            kept[farthest] = 1;
            parts.emplace_back(from, farthest);
            parts.emplace_back(farthest, to);
        }
    }
    Points some;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (kept[i] != 0) {
            some.push_back(line[i]);
        }
    }
    return some;
}

std::string px(double value) {
    std::string text = fixed(value, 2);
    while (text.ends_with('0')) {
        text.pop_back();
    }
    if (text.ends_with('.')) {
        text.pop_back();
    }
    return text;
}

void Svg::line(double x1, double y1, double x2, double y2, const std::string& style_class) {
    if (!all_finite(x1, y1, x2, y2)) {
        return;
    }
    body_ += "<line x1=\"" + px(x1) + "\" y1=\"" + px(y1) + "\" x2=\"" + px(x2) + "\" y2=\"" +
             px(y2) + "\" class=\"" + style_class + "\"/>";
}

void Svg::rectangle(double x, double y, double width, double height, const std::string& style_class,
                    const std::string& tip) {
    if (!all_finite(x, y, width, height)) {
        return;
    }
    body_ += "<rect x=\"" + px(x) + "\" y=\"" + px(y) + "\" width=\"" + px(width) + "\" height=\"" +
             px(height) + "\" class=\"" + style_class + "\"" + closing("rect", tip);
}

void Svg::circle(double x, double y, double radius, const std::string& style_class) {
    if (!all_finite(x, y, radius)) {
        return;
    }
    body_ += "<circle cx=\"" + px(x) + "\" cy=\"" + px(y) + "\" r=\"" + px(radius) + "\" class=\"" +
             style_class + "\"/>";
}

void Svg::polyline(const Points& points, const std::string& style_class) {
    body_ += "<polyline points=\"" + list(points) + "\" class=\"" + style_class + "\"/>";
}

void Svg::polygon(const Points& points, const std::string& style_class,
                  const std::string& attributes, const std::string& tip) {
    body_ += "<polygon points=\"" + list(points) + "\" class=\"" + style_class + "\" " +
             attributes + closing("polygon", tip);
}

void Svg::text(double x, double y, const std::string& text, const std::string& anchor,
               const std::string& style_class) {
    if (!all_finite(x, y)) {
        return;
    }
    body_ += "<text x=\"" + px(x) + "\" y=\"" + px(y) + "\"" +
             (anchor == "start" ? "" : " text-anchor=\"" + anchor + "\"") +
             (style_class.empty() ? "" : " class=\"" + style_class + "\"") + ">" + escaped(text) +
             "</text>";
}

std::string Svg::markup(const std::string& id, const std::string& title,
                        const std::string& description) const {
    return "<svg viewBox=\"0 0 " + px(width_) + " " + px(height_) +
           "\" role=\"img\" aria-labelledby=\"" + id + "-t " + id + "-d\"><title id=\"" + id +
           "-t\">" + escaped(title) + "</title><desc id=\"" + id + "-d\">" + escaped(description) +
           "</desc>" + body_ + "</svg>\n";
}

} // namespace vrid
