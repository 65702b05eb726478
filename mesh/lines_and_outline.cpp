#include "mesh/lines.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/outline_piece.hpp"

namespace vrid {

void add_corner_fans(const Planform& planform, MeshLines& lines) {
    const std::vector<OutlinePiece>& outline = planform.outline;
    for (std::size_t k = 0; k < outline.size() && !lines.parallels.empty(); ++k) {
        const Vector2d before = tangent_at(outline[(k + outline.size() - 1) % outline.size()], 1);
        const Vector2d after = tangent_at(outline[k], 0);
        const double turn =
            std::atan2(before.x() * after.y() - before.y() * after.x(), before.dot(after));
        if (!outline[k].corner_at_start || turn > -1e-3) {
            continue;
        }
        const double first = std::atan2(before.x(), -before.y()); // of the left normal
        constexpr double short_turn = 0.4;                        // [rad]
        const std::vector<double> angles = turn > -short_turn
                                               ? std::vector<double>{first + turn / 2}
                                               : std::vector<double>{first, first + turn};
        const Vector2d corner = point_at(outline[k], 0);
        const double reach = lines.parallels.back().distance;
        for (const double angle : angles) {
            const Vector2d way(std::cos(angle), std::sin(angle));
            lines.straight.push_back(
                {corner, corner + reach * way, Rank::wanted_band, "corner of the outline"});
        }
    }
}

bool is_symmetric(const Planform& planform, const MeshLines& lines) {
    const OutlineDistance distance(planform);
    constexpr double equal = 1e-9;
    for (const OutlinePiece& piece : planform.outline) {
        for (const double t : flat_parameters(piece, 1e-4)) {
            const Vector2d p = point_at(piece, t);
            if (distance(Vector2d(p.x(), -p.y())) > equal) {
                return false;
            }
        }
    }
    const auto mirror_of = [&](const StraightLine& p, const StraightLine& q) {
        const Vector2d a(p.a.x(), -p.a.y());
        const Vector2d b(p.b.x(), -p.b.y());
        return p.rank == q.rank && (((a - q.a).norm() < equal && (b - q.b).norm() < equal) ||
                                    ((a - q.b).norm() < equal && (b - q.a).norm() < equal));
    };
    return std::ranges::all_of(lines.straight, [&](const auto& p) {
        return (p.a.x() == p.b.x() && p.rank != Rank::zone) ||
               std::ranges::any_of(lines.straight, [&](const auto& q) { return mirror_of(p, q); });
    });
}

} // namespace vrid
