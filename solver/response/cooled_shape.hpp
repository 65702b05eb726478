#pragma once

#include <array>
#include <string>
#include <vector>

namespace vrid {

/// Numbers of a cooled board without a station, in the order they are told; "concavity" has one.
inline constexpr std::array cooled_names{"camber", "camber_edge", "nose_height", "tail_height",
                                         "twist"};

/// What one layer, the edge or the sidewall does to the shape.
struct ShapePart {
    std::string layer;
    double camber = 0;    ///< [m]
    double concavity = 0; ///< at x = 0 [m]
    double twist = 0;     ///< [rad]
};

/// A place along a line and how far the board moves up there against the contact line.
struct ShapePoint {
    double at = 0;   ///< station, or y [m]
    double rise = 0; ///< [m]
};

/// The board across at a station, right to left.
struct CrossCurve {
    double x = 0; ///< [m]
    std::vector<ShapePoint> points;
};

/// Where bending in two directions stretches the plate, so that linear theory says too much of one
/// curvature: by this share of it.
struct StretchShare {
    double along = 0, across = 0;                 ///< largest of all stations, of k_x and of k_y
    double along_station = 0, across_station = 0; ///< where [m]
};

/// The free board out of the press at a temperature, against its mould.
struct CooledShape {
    double celsius = 0;
    std::vector<ShapePart> by_layer; ///< upwards
    std::vector<ShapePoint> axis;    ///< every 10 mm and at the tips, from tail to nose
    std::vector<CrossCurve> across;
    StretchShare stretch;
    double largest_reaction = 0; ///< of the six supports over the largest nodal load
};

} // namespace vrid
