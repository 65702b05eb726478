#include "drawn_shapes.hpp"

#include <algorithm>
#include <cmath>
#include <random>

namespace vrid::tests {

namespace {

using Eigen::Vector2d;

// mt19937 is the same everywhere, the distributions of the standard library are not.
double between(std::mt19937& random, double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
}

double rounded(double value, int decimals) {
    const double digits = std::pow(10.0, decimals + 3); // of a metre
    return decimals < 0 ? value : std::round(value * digits) / digits;
}

} // namespace

PlanformShape ordinary_shape(unsigned seed) {
    std::mt19937 random(seed);
    PlanformShape shape;
    shape.running_length = between(random, 0.9, 1.25);
    shape.waist_width = between(random, 0.23, 0.28);
    shape.nose_width = shape.waist_width + between(random, 0.02, 0.06);
    shape.tail_width = shape.waist_width + between(random, 0.02, 0.06);
    shape.waist_x = between(random, -0.05, 0.05);
    shape.nose_length = between(random, 0.12, 0.3);
    shape.tail_length = between(random, 0.1, 0.25);
    shape.nose_fullness = between(random, 0.45, 0.7);
    shape.tail_fullness = between(random, 0.45, 0.7);
    return shape;
}

DrawnOutline drawn(const Planform& planform, int points, int decimals) {
    constexpr int fine = 4000; // steps a piece
    std::vector<Vector2d> line;
    std::vector<double> length{0.0};
    for (int piece = 0; piece < static_cast<int>(planform.outline.size()); ++piece) {
        for (int k = 0; k < fine; ++k) {
            line.push_back(point_at(planform, {piece, static_cast<double>(k) / fine}));
        }
    }
    line.push_back(line.front());
    for (std::size_t i = 1; i < line.size(); ++i) {
        length.push_back(length.back() + (line[i] - line[i - 1]).norm());
    }
    DrawnOutline outline;
    for (int k = 0; k < points; ++k) {
        const double at = length.back() * k / points;
        const auto above = std::upper_bound(length.begin(), length.end(), at) - length.begin();
        const auto i = static_cast<std::size_t>(above);
        const double share = (at - length[i - 1]) / (length[i] - length[i - 1]);
        const Vector2d p = line[i - 1] + share * (line[i] - line[i - 1]);
        const Vector2d put(rounded(p.x(), decimals), rounded(p.y(), decimals));
        if (outline.points.empty() || put != outline.points.back()) {
            outline.points.push_back(put);
        }
    }
    outline.corner.resize(outline.points.size(), false);
    return outline;
}

double rounding(int decimals) {
    return decimals < 0 ? 0 : std::pow(10.0, -decimals - 3) / 2;
}

RandomDrawing random_drawing(unsigned seed) {
    std::mt19937 random(seed + 7919);
    const PlanformShape shape = ordinary_shape(seed);
    RandomDrawing drawing;
    drawing.running_length = shape.running_length;
    drawing.symmetric = between(random, 0, 1) < 0.5;
    drawing.decimals = std::min(3, static_cast<int>(between(random, 0, 4)));
    const int points = static_cast<int>(24 * std::pow(400.0 / 24, between(random, 0, 1)));
    const double bend = drawing.symmetric ? 0 : between(random, 0.001, 0.012);
    drawing.outline = drawn(parametric_planform(shape), points, -1);
    for (Vector2d& p : drawing.outline.points) {
        p.y() += bend * std::sin(3 * p.x() + 1);
        p = {rounded(p.x(), drawing.decimals), rounded(p.y(), drawing.decimals)};
    }
    return drawing;
}

} // namespace vrid::tests
