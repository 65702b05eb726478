#include "solver/strength/quad_places.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <Eigen/LU>

#include "mesh/board/lists.hpp"
#include "mesh/lobatto.hpp"
#include "solver/strength/lagrange.hpp"
#include "solver/system/numbering.hpp"

namespace vrid {

namespace {

constexpr int shape_points = 4; // sides as cubics: within 0.01 mm of the outline's
constexpr double cell = 8e-3;   // of the grid that finds quads [m]

const Eigen::VectorXd& shape_nodes() {
    static const Eigen::VectorXd nodes = lobatto(shape_points).point;
    return nodes;
}

const Lagrange<shape_points>& shape_basis() {
    static const Lagrange<shape_points> basis(shape_nodes());
    return basis;
}

using ShapeRow = Lagrange<shape_points>::Row;
using ShapeMap = Eigen::Map<const Eigen::Matrix<double, 2 * shape_points, shape_points>>;

// sum_ij X(i, j) a_i b_j
Vector2d combine(const Eigen::Matrix2Xd& X, const ShapeRow& a, const ShapeRow& b) {
    const Eigen::Matrix<double, 2 * shape_points, 1> rows = ShapeMap(X.data()) * b;
    return Eigen::Map<const Eigen::Matrix<double, 2, shape_points>>(rows.data()) * a;
}

} // namespace

QuadPlaces::QuadPlaces(const Mesh& mesh) {
    const Eigen::MatrixXd to_shape = geometry_to_points(mesh, shape_nodes());
    Vector2d low(HUGE_VAL, HUGE_VAL);
    Vector2d high = -low;
    for (int quad = 0; quad < static_cast<int>(mesh.quads.size()); ++quad) {
        shape_.push_back(quad_points(mesh, quad, to_shape));
        rim_.push_back(sides(quad));
        low = low.cwiseMin(shape_.back().rowwise().minCoeff());
        high = high.cwiseMax(shape_.back().rowwise().maxCoeff());
    }
    origin_ = low - Vector2d::Constant(cell);
    columns_ = static_cast<int>((high.x() - origin_.x()) / cell) + 2;
    rows_ = static_cast<int>((high.y() - origin_.y()) / cell) + 2;
    cells_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
    for (std::size_t quad = 0; quad < shape_.size(); ++quad) {
        constexpr double bulge = 1e-4; // of sides between their points
        const Vector2d from =
            shape_[quad].rowwise().minCoeff() - origin_ - Vector2d::Constant(bulge);
        const Vector2d to = shape_[quad].rowwise().maxCoeff() - origin_ + Vector2d::Constant(bulge);
        for (int j = static_cast<int>(from.y() / cell); j <= static_cast<int>(to.y() / cell); ++j) {
            for (int i = static_cast<int>(from.x() / cell); i <= static_cast<int>(to.x() / cell);
                 ++i) {
                cells_[static_cast<std::size_t>(j * columns_ + i)].push_back(
                    static_cast<int>(quad));
            }
        }
    }
}

Vector2d QuadPlaces::position(int quad, const Vector2d& xi) const {
    return combine(shape_[static_cast<std::size_t>(quad)], shape_basis().at(xi.x()),
                   shape_basis().at(xi.y()));
}

// Newton's method from the place given; whether it gets there.
bool QuadPlaces::to_place(int quad, const Vector2d& p, Vector2d& xi) const {
    const Eigen::Matrix2Xd& X = shape_[static_cast<std::size_t>(quad)];
    for (int step = 0; step < 12; ++step) {
        ShapeRow da;
        ShapeRow db;
        const ShapeRow a = shape_basis().at(xi.x(), &da);
        const ShapeRow b = shape_basis().at(xi.y(), &db);
        Eigen::Matrix2d J;
        J << combine(X, da, b), combine(X, a, db);
        const Vector2d change = J.inverse() * (p - combine(X, a, b));
        xi += change;
        if (!(xi.cwiseAbs().maxCoeff() < 4)) {
            return false; // far away: a point near by converges
        }
        if (change.cwiseAbs().maxCoeff() < 1e-6) {
            return true; // to the square of that
        }
    }
    return false; // it wanders about, as from a point beside a flat corner
}

std::optional<Vector2d> QuadPlaces::inside(int quad, const Vector2d& p, double margin) const {
    Vector2d xi(0, 0);
    if (!to_place(quad, p, xi) || xi.cwiseAbs().maxCoeff() > 1 + margin) {
        return std::nullopt;
    }
    return xi;
}

// Counter-clockwise, as the quads are.
Polygon QuadPlaces::sides(int quad) const {
    constexpr double straight = 1e-6; // [m]
    constexpr int parts = 8;
    const std::array<Vector2d, 5> corner{Vector2d(-1, -1), Vector2d(1, -1), Vector2d(1, 1),
                                         Vector2d(-1, 1), Vector2d(-1, -1)};
    Polygon rim;
    for (std::size_t i = 0; i < 4; ++i) {
        const auto at = [&](double part) {
            return position(quad, corner[i] + part * (corner[i + 1] - corner[i]));
        };
        const Vector2d chord = (at(0) + at(1)) / 2;
        const bool curved = (at(0.5) - chord).norm() > straight ||
                            (at(0.25) + at(0.75) - 2 * chord).norm() > straight;
        for (int k = 0; k < (curved ? parts : 1); ++k) {
            rim.push_back(at(static_cast<double>(k) / parts));
        }
    }
    return rim;
}

const std::vector<int>& QuadPlaces::near(const Vector2d& p) const {
    static const std::vector<int> none;
    const int i = static_cast<int>(std::floor((p.x() - origin_.x()) / cell));
    const int j = static_cast<int>(std::floor((p.y() - origin_.y()) / cell));
    return i < 0 || j < 0 || i >= columns_ || j >= rows_
               ? none
               : cells_[static_cast<std::size_t>(j * columns_ + i)];
}

std::vector<int> QuadPlaces::overlapped(const Vector2d& centre, double radius) const {
    std::vector<int> quads;
    const auto index = [&](double x, double from, int count) {
        return std::clamp(static_cast<int>(std::floor((x - from) / cell)), 0, count - 1);
    };
    for (int j = index(centre.y() - radius, origin_.y(), rows_);
         j <= index(centre.y() + radius, origin_.y(), rows_); ++j) {
        for (int i = index(centre.x() - radius, origin_.x(), columns_);
             i <= index(centre.x() + radius, origin_.x(), columns_); ++i) {
            const auto& here = cells_[static_cast<std::size_t>(j * columns_ + i)];
            quads.insert(quads.end(), here.begin(), here.end());
        }
    }
    sort_distinct(quads);
    return quads;
}

// An octagon about the disc lies inside the quad.
bool QuadPlaces::wholly_inside(int quad, const Vector2d& centre, double radius) const {
    const double outer = 1.01 * radius / std::cos(std::numbers::pi / 8);
    for (int k = 0; k < 8; ++k) {
        const double turn = k * std::numbers::pi / 4;
        if (!inside(quad, centre + outer * Vector2d(std::cos(turn), std::sin(turn)))) {
            return false;
        }
    }
    return true;
}

} // namespace vrid
