#pragma once

#include <memory>
#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// Tangent (C, 0, S) and normal (-S, 0, C) of the running surface along x, and its curvature.
struct RestFrame {
    double C = 1, S = 0; ///< cosine and sine of the slope angle
    double kap = 0;      ///< [1/m], positive where the tip curls up
};

/// The unloaded running surface as a function of the station on the flat blank. The station is the
/// length along the surface, so the height's derivative by it is the sine of the slope: unrolled,
/// the surface is exactly the planform.
struct RestShape {
    Profile height; ///< [m]
    std::vector<double> slopes;

    /// At station x of the piece of the curve that holds station `near`: the curvature jumps, and
    /// at the last stations the slope may, too.
    [[nodiscard]] RestFrame frame(double x, double near) const;
    [[nodiscard]] RestFrame frame(double x) const { return frame(x, x); }
    [[nodiscard]] double z(double x) const; ///< [m]
    /// Distance along the floor from station 0 to station x [m].
    [[nodiscard]] double place(double x) const;
};

/// Null without a rest shape and for a level one.
std::shared_ptr<const RestShape> rest_shape(const Board& board);

/// The largest |dz/dx| and where it is.
struct Steepest {
    double slope = 0, x = 0; ///< [-, m]
};
Steepest steepest(const Profile& height);

/// The smallest radius of curvature between two stations and where it is; radius 0 if all is
/// straight.
struct Tightest {
    double radius = 0, x = 0; ///< [m]
};
Tightest tightest(const RestShape& shape, double from, double to);

} // namespace vrid
