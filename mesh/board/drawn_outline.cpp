#include "mesh/board/drawn_outline.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "mesh/board/error.hpp"
#include "mesh/board/outline_piece.hpp"

namespace vrid {

namespace {

constexpr double on_centre_line = 1e-4; // what a drawing of half a board may miss it by [m]

std::string in_mm(const Vector2d& point) {
    const auto text = [](double metres) {
        std::string digits = std::to_string(metres * 1e3);
        digits.resize(digits.size() - 3);
        return digits;
    };
    return "x = " + text(point.x()) + " mm, y = " + text(point.y()) + " mm";
}

} // namespace

bool is_one_sided(const DrawnOutline& outline) {
    const auto all = [&](double side) {
        return std::ranges::all_of(
            outline.points, [&](const Vector2d& p) { return side * p.y() > -on_centre_line; });
    };
    return all(1) || all(-1);
}

DrawnOutline with_mirror_image(DrawnOutline half) {
    std::vector<Vector2d>& points = half.points;
    std::vector<Problem> problems;
    for (Vector2d* end : {&points.front(), &points.back()}) {
        if (std::abs(end->y()) > on_centre_line) {
            problems.push_back({"planform", "the half outline ends at " + in_mm(*end) +
                                                "; accepted: both ends within 0.1 mm of the centre "
                                                "line y = 0"});
        }
        end->y() = 0;
    }
    const auto middle = std::ranges::max_element(
        points, [](auto& a, auto& b) { return std::abs(a.y()) < std::abs(b.y()); });
    const double side = middle->y() > 0 ? 1 : -1;
    for (std::size_t i = 1; i + 1 < points.size() && problems.empty(); ++i) {
        if (side * points[i].y() <= on_centre_line) {
            problems.push_back({"planform", "the half outline comes to the centre line or beyond "
                                            "it between its ends, at " +
                                                in_mm(points[i])});
        }
    }
    throw_if_any(std::move(problems));
    for (std::size_t i = points.size() - 1; i-- > 1;) {
        points.emplace_back(points[i].x(), -points[i].y());
        half.corner.push_back(half.corner[i]);
    }
    return half;
}

std::vector<Straying> strayings(const Planform& planform) {
    double low = 0;
    double high = 0;
    for (const OutlinePiece& piece : planform.outline) {
        low = std::min(low, piece.control[0].y());
        high = std::max(high, piece.control[0].y());
    }
    constexpr double share_of_width = 0.02;
    constexpr double most_turn = std::numbers::pi / 3;
    constexpr int probes = 8;
    std::vector<Straying> found;
    for (const OutlinePiece& piece : planform.outline) {
        const Vector2d chord = piece.control[3] - piece.control[0];
        const Vector2d across = Vector2d(-chord.y(), chord.x()).normalized();
        Straying here{point_at(piece, 0.5).x(), 0, 0, 0};
        Vector2d before = tangent_at(piece, 0);
        for (int k = 1; k <= probes; ++k) {
            const double t = static_cast<double>(k) / probes;
            const Vector2d way = tangent_at(piece, t);
            here.distance = std::max(here.distance,
                                     std::abs(across.dot(point_at(piece, t) - piece.control[0])));
            here.turn +=
                std::abs(std::atan2(before.x() * way.y() - before.y() * way.x(), before.dot(way)));
            before = way;
        }
        here.excess =
            std::max(here.distance / (share_of_width * (high - low)), here.turn / most_turn);
        if (here.excess > 1) {
            found.push_back(here);
        }
    }
    return found;
}

} // namespace vrid
