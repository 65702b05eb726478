#include "solver/strength/cut_disc.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "mesh/board/cross.hpp"

namespace vrid {

namespace {

constexpr int corners = 24;

const Polygon& unit_disc() {
    static const Polygon made = [] {
        Polygon polygon;
        const double part = 2 * std::numbers::pi / corners;
        const double radius = std::sqrt(part / std::sin(part)); // its area is pi
        for (int k = 0; k < corners; ++k) {
            const double turn = (k + 0.5) * part;
            polygon.emplace_back(radius * std::cos(turn), radius * std::sin(turn));
        }
        return polygon;
    }();
    return made;
}

} // namespace

Polygon disc_polygon(const Vector2d& centre, double radius) {
    Polygon polygon;
    polygon.reserve(corners);
    for (const Vector2d& one : unit_disc()) {
        polygon.push_back(centre + radius * one);
    }
    return polygon;
}

Polygon clipped(Polygon polygon, const Polygon& convex) {
    Polygon kept;
    std::vector<double> inside; // twice the area with the side: above 0 on its left
    for (std::size_t side = 0; side < convex.size() && !polygon.empty(); ++side) {
        const Vector2d& from = convex[side];
        const Vector2d along = convex[(side + 1) % convex.size()] - from;
        inside.clear();
        bool all = true;
        for (const Vector2d& p : polygon) {
            inside.push_back(cross(along, p - from));
            all = all && inside.back() >= 0;
        }
        if (all) {
            continue;
        }
        kept.clear();
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const std::size_t next = (i + 1) % polygon.size();
            if (inside[i] >= 0) {
                kept.push_back(polygon[i]);
            }
            if ((inside[i] >= 0) != (inside[next] >= 0)) {
                const double part = inside[i] / (inside[i] - inside[next]);
                kept.push_back(polygon[i] + part * (polygon[next] - polygon[i]));
            }
        }
        std::swap(polygon, kept);
    }
    return polygon;
}

std::vector<AreaPoint> area_points(const Polygon& polygon) {
    struct Orbit {
        double weight, corner; // corner: coordinate at one vertex, the others share the rest
    };
    constexpr std::array<Orbit, 2> orbits{
        {{0.223381589678011, 0.108103018168070}, {0.109951743655322, 0.816847572980459}}};
    std::vector<AreaPoint> points;
    points.reserve(6 * polygon.size());
    Vector2d middle(0, 0); // of the vertices: a mirrored polygon gets mirrored points
    for (const Vector2d& one : polygon) {
        middle += one / static_cast<double>(polygon.size());
    }
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const std::array<Vector2d, 3> vertex{middle, polygon[i], polygon[(i + 1) % polygon.size()]};
        const double area = cross(vertex[1] - vertex[0], vertex[2] - vertex[0]) / 2;
        const Vector2d sum = vertex[0] + vertex[1] + vertex[2];
        for (const Orbit& orbit : orbits) {
            const double other = (1 - orbit.corner) / 2;
            for (const Vector2d& corner : vertex) {
                points.push_back(
                    {other * sum + (orbit.corner - other) * corner, orbit.weight * area});
            }
        }
    }
    return points;
}

} // namespace vrid
