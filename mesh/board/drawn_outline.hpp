#pragma once

#include <vector>

#include "mesh/board/planform.hpp"

namespace vrid {

/// A drawn outline as its file lists it.
struct DrawnOutline {
    std::vector<Eigen::Vector2d> points; ///< [m], the first not repeated at the end
    std::vector<bool> corner;            ///< one per point
};

/// What became of the points of a drawn outline.
struct DrawnFit {
    int points = 0;          ///< of the whole outline
    double tolerance = 0;    ///< points could move by this much along x and along y [m]
    double largest_move = 0; ///< along x or y [m]
    double move_x = 0;       ///< station of the point that moved most [m]
};
struct DrawnPlanform {
    Planform planform;
    DrawnFit fit;
};
/// spline_planform with points that may move by up to `tolerance` along x and along y, so that the
/// curve does not follow their rounding (outline_smoothing.hpp). \throws InputError as it does
DrawnPlanform drawn_planform(const DrawnOutline& outline, double running_length, double tolerance);

/// All points lie on one side of the centre line, or on it.
bool is_one_sided(const DrawnOutline& outline);

/// A half outline with its mirror image, one loop. Its ends are put on the centre line.
/// \throws InputError when an end is farther than 0.1 mm from the centre line, or a point between
/// them is not farther than that on the side of the others
DrawnOutline with_mirror_image(DrawnOutline half);

/// A place between two points where a spline leaves what the points show.
struct Straying {
    double x = 0;        ///< station, in the middle [m]
    double distance = 0; ///< largest, of the spline from its chord [m]
    double turn = 0;     ///< of the spline's direction [rad]
    double excess = 0;   ///< the larger of both over its limit, above 1
};
/// Where a drawn outline strays from a chord by more than 2 % of the board's width, or turns by
/// more than 60 degrees between two points: too few points to say what the outline is.
std::vector<Straying> strayings(const Planform& planform);

} // namespace vrid
