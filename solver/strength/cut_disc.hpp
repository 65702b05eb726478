#pragma once

#include <vector>

#include <Eigen/Core>

namespace vrid {

/// Vertices, counter-clockwise; the last is joined to the first [m].
using Polygon = std::vector<Eigen::Vector2d>;

/// A disc as a regular polygon of its area, symmetric about both axes; its second moment is within
/// 3e-5 of the disc's.
Polygon disc_polygon(const Eigen::Vector2d& centre, double radius);

/// The part of a polygon inside a convex one (Sutherland and Hodgman, 1974: Reentrant polygon
/// clipping, Comm. ACM 17). It moves steadily with both; empty: none of it.
Polygon clipped(Polygon polygon, const Polygon& convex);

/// A point of a rule of integration.
struct AreaPoint {
    Eigen::Vector2d at; ///< [m]
    double area;        ///< weight [m2]
};

/// Exact for polynomials of degree 4 over the polygon: six points a triangle (Dunavant, 1985: High
/// degree efficient symmetrical Gaussian quadrature rules for the triangle, Int. J. Num. Meth. Eng.
/// 21; from memory, tested). Triangles have signs, so that any polygon will do.
std::vector<AreaPoint> area_points(const Polygon& polygon);

} // namespace vrid
