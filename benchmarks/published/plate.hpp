#pragma once

#include <functional>
#include <vector>

#include "tests/plate_problem.hpp"

namespace vrid::published {

using Point = Eigen::Vector2d;
using Pressure = std::function<double(double x, double y)>;

/// Four-sided plate with mesh lines at the shares u, v in 0..1 of its sides.
Mesh graded_patch(const std::array<Point, 4>& corners, const std::vector<double>& u,
                  const std::vector<double>& v);
/// Corners of the rectangle 0..a x 0..b.
std::array<Point, 4> rectangle(double a, double b);
/// Rhombus with sides of length 1 and the angle [rad] at the origin; two sides along x.
std::array<Point, 4> rhombus(double angle);
/// 0..1 with `layers` steps towards either end, each `ratio` times the one before, and `middle`
/// even steps between.
std::vector<double> graded(int middle, int layers, double ratio = 0.2);

/// Disc of radius R round the origin, sides on circles of radius c (inside: a core square) and R.
Mesh disc(double R, double c, int n);

enum class Support { soft, hard, clamped };

/// Supports w on the outline where `on` holds; u, v held there too. Hard: tangential rotation too,
/// for sides along x or y only. Clamped: all.
void support(Loading& loading, const PlateModel& model, Support kind,
             const std::function<bool(double x, double y)>& on);

struct Bent {
    PlateModel model;
    Eigen::VectorXd u;
    [[nodiscard]] double w(double x, double y) const;
    /// Mx My Mxy at the node nearest the point, mean of the quads that meet there [N].
    [[nodiscard]] Eigen::Vector3d moment(double x, double y) const;
};

/// Solves a loading for its motion.
Bent bent(PlateModel model, const Loading& loading);

/// D of an isotropic plate [N m].
double bending_stiffness(double E, double nu, double t);

} // namespace vrid::published
