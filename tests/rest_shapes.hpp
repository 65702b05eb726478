#pragma once

#include <cmath>
#include <memory>

#include "mesh/board/rest_shape.hpp"

namespace vrid::tests {

using SharedShape = std::shared_ptr<const RestShape>;

/// A plane that rises with sine S from x = -10 to 10 m.
inline SharedShape inclined(double S) {
    RestShape shape;
    shape.height.x = {-10, 10};
    shape.height.value = {-10 * S, 10 * S};
    shape.slopes = {S, S};
    return std::make_shared<const RestShape>(std::move(shape));
}

/// Level up to `from` [m], then a circle of radius R to x = `to`, as a spline of many pieces with
/// the circle's own heights and slopes.
inline SharedShape tip(double from, double R, double to) {
    RestShape shape;
    shape.height.x = {from - 10};
    shape.height.value = {0};
    shape.slopes = {0};
    constexpr int pieces = 400;
    for (int i = 0; i <= pieces; ++i) {
        const double s = (to - from) * i / pieces;
        shape.height.x.push_back(from + s);
        shape.height.value.push_back(R * (1 - std::cos(s / R)));
        shape.slopes.push_back(std::sin(s / R));
    }
    return std::make_shared<const RestShape>(std::move(shape));
}

/// A circle of radius R, level at x = 0 [m].
inline SharedShape arc(double R, double from, double to) {
    RestShape shape;
    constexpr int pieces = 400;
    for (int i = 0; i <= pieces; ++i) {
        const double s = from + (to - from) * i / pieces;
        shape.height.x.push_back(s);
        shape.height.value.push_back(R * (1 - std::cos(s / R)));
        shape.slopes.push_back(std::sin(s / R));
    }
    return std::make_shared<const RestShape>(std::move(shape));
}

} // namespace vrid::tests
