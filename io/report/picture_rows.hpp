#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/report/axis.hpp"
#include "io/report/svg.hpp"
#include "io/write/number.hpp"

namespace vrid {

struct Curve; // io/report/report.hpp

// What the pictures of findings share: rows of labels with something drawn beside each.

constexpr double picture_width = 1000; ///< [px]
/// Left and right of the axis of stations, the same everywhere: stations stand under stations.
constexpr double stations_left = 54, stations_right = 14;

/// At most `letters` letters of UTF-8 text, the last one an ellipsis if some are missing.
std::string clipped(const std::string& text, std::size_t letters);

/// A value to four digits without zeros at the end: "9", "0.25".
std::string short_text(double value);

/// A share 0..1 as "97.2 %", near the ends with two decimals.
std::string percent_text(double share);

/// Lines down the picture at even values, the one at zero strong, their numbers below.
void draw_ticks(Svg& svg, const Axis& x, double top, double bottom);

/// Lines across the picture at about `count` even values, that at `strong` so, their numbers left.
void draw_levels(Svg& svg, const Axis& y, int count, double strong = 0);
/// The numbers of even stations below `base`, with short lines down from it if `marked`.
void draw_stations(Svg& svg, const Axis& x, double base, bool marked = true);
/// How a curve is drawn, by its number: "curve C0".
std::string curve_class(std::size_t number);
/// The curve where its values are finite.
void draw_curve(Svg& svg, const Curve& curve, const Axis& x, const Axis& y, std::size_t number);
/// The names of curves in the upper right corner, each behind a piece of its line.
void draw_keys(Svg& svg, const std::vector<std::string>& names, std::size_t letters = 1000);
/// Wider than nothing: an axis over these values that even steps can divide.
Axis axis_over(double low, double high, double from, double to);

/// A value at each of some stations, drawn as stems from zero.
struct Stems {
    std::string title, along, unit;
    std::vector<std::pair<double, double>> points; ///< two or more, x rising
};
std::string stems_picture(const Stems& stems, const std::string& id);

/// "<h3>nose-twist = 9.544 +- 0.008 N m/deg</h3>"
std::string number_head(const std::string& name, const BenchQuantity& quantity);

} // namespace vrid
