#include "mesh/board/planform.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "mesh/board/error.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"

namespace vrid {

namespace {

Vector2d mirrored(const Vector2d& p) {
    return {p.x(), -p.y()};
}

OutlinePiece mirrored_and_reversed(const OutlinePiece& piece) {
    OutlinePiece other = piece;
    for (std::size_t k = 0; k < 4; ++k) {
        other.control[k] = mirrored(piece.control[3 - k]);
    }
    other.centre = mirrored(piece.centre);
    other.angle_from = -piece.angle_to;
    other.angle_to = -piece.angle_from;
    return other;
}

// The left (+y) sidecut from the nose contact station to the tail one: circle through a, b, c.
OutlinePiece sidecut_piece(const Vector2d& tail, const Vector2d& waist, const Vector2d& nose) {
    const Vector2d p = waist - tail;
    const Vector2d q = nose - tail;
    const double twice_area = p.x() * q.y() - p.y() * q.x(); // of the triangle, signed
    const double radius = p.norm() * q.norm() * (q - p).norm() / (2 * std::abs(twice_area));
    constexpr double straight = 1e6; // a 1.2 m long arc of this radius leaves its chord by 0.2 um
    if (!(radius < straight)) {
        return straight_piece(nose, tail);
    }
    const Vector2d from_tail((q.y() * p.squaredNorm() - p.y() * q.squaredNorm()) / (2 * twice_area),
                             (p.x() * q.squaredNorm() - q.x() * p.squaredNorm()) /
                                 (2 * twice_area));
    OutlinePiece arc;
    arc.centre = tail + from_tail;
    arc.radius = radius;
    const bool below = arc.centre.y() < waist.y(); // the board bulges
    const auto angle = [&](const Vector2d& point) {
        const Vector2d d = point - arc.centre;
        // measured from the middle of the arc's side, so that both ends are on one branch
        return below ? std::numbers::pi / 2 - std::atan2(d.x(), d.y())
                     : -std::numbers::pi / 2 + std::atan2(d.x(), -d.y());
    };
    arc.angle_from = angle(nose);
    arc.angle_to = angle(tail);
    return arc;
}

// From the contact station's end of the sidecut to the tip on the long axis.
OutlinePiece tip_piece(const Vector2d& end, const Vector2d& tangent, double tip_x,
                       double fullness) {
    const double length = std::abs(tip_x - end.x());
    OutlinePiece piece;
    piece.control = {end, end + fullness * length * tangent, Vector2d(tip_x, fullness * end.y()),
                     Vector2d(tip_x, 0)};
    return piece;
}

OutlinePiece reversed(OutlinePiece piece) {
    std::ranges::reverse(piece.control);
    std::swap(piece.angle_from, piece.angle_to);
    return piece;
}

Planform straight_sided(std::vector<Vector2d> corners, double running_length) {
    Planform planform;
    planform.running_length = running_length;
    for (std::size_t k = 0; k < corners.size(); ++k) {
        planform.outline.push_back(straight_piece(corners[k], corners[(k + 1) % corners.size()]));
        planform.outline.back().corner_at_start = true;
    }
    return planform;
}

} // namespace

Planform parametric_planform(const PlanformShape& shape) {
    const double half = shape.running_length / 2;
    if (!(std::abs(shape.waist_x) < half)) {
        throw InputError("planform", "the waist must lie between the contact stations");
    }
    const Vector2d tail(-half, shape.tail_width / 2);
    const Vector2d waist(shape.waist_x, shape.waist_width / 2);
    const Vector2d nose(half, shape.nose_width / 2);
    const OutlinePiece left = sidecut_piece(tail, waist, nose);
    const Vector2d to_nose = -tangent_at(left, 0).normalized();
    const Vector2d to_tail = tangent_at(left, 1).normalized();
    if (to_nose.x() < 0.1 || to_tail.x() > -0.1 ||
        std::abs(left.angle_to - left.angle_from) > std::numbers::pi) {
        throw InputError("planform", "no sidecut circle joins these widths: it would turn back at "
                                     "a contact station");
    }
    const OutlinePiece nose_left =
        reversed(tip_piece(nose, to_nose, half + shape.nose_length, shape.nose_fullness));
    const OutlinePiece tail_left =
        tip_piece(tail, to_tail, -half - shape.tail_length, shape.tail_fullness);
    Planform planform;
    planform.outline = {mirrored_and_reversed(left),
                        mirrored_and_reversed(nose_left),
                        nose_left,
                        left,
                        tail_left,
                        mirrored_and_reversed(tail_left)};
    planform.running_length = shape.running_length;
    planform.shape = shape;
    check_no_self_crossing(planform);
    return planform;
}

Planform rectangle_planform(double length, double width) {
    const double a = length / 2;
    const double b = width / 2;
    return straight_sided({{-a, -b}, {a, -b}, {a, b}, {-a, b}}, length);
}

Planform polygon_planform(const std::vector<Vector2d>& corners, double running_length) {
    std::vector<Vector2d> distinct;
    for (const Vector2d& corner : corners) {
        if (distinct.empty() || (corner - distinct.back()).norm() > same_place) {
            distinct.push_back(corner);
        }
    }
    while (distinct.size() > 1 && (distinct.front() - distinct.back()).norm() <= same_place) {
        distinct.pop_back();
    }
    if (distinct.size() < 3) {
        throw InputError("planform", "a polygon needs at least 3 different corners, found " +
                                         std::to_string(distinct.size()));
    }
    Planform planform = straight_sided(distinct, running_length);
    if (area(planform) < 0) {
        std::ranges::reverse(distinct);
        planform = straight_sided(distinct, running_length);
    }
    if (!(area(planform) > 1e-8)) {
        throw InputError("planform", "the polygon has no area");
    }
    check_no_self_crossing(planform);
    return planform;
}

Vector2d point_at(const Planform& planform, OutlinePlace place) {
    return point_at(planform.outline[static_cast<std::size_t>(place.piece)], place.t);
}

Vector2d tangent_at(const Planform& planform, OutlinePlace place) {
    return tangent_at(planform.outline[static_cast<std::size_t>(place.piece)], place.t);
}

std::array<std::array<double, 2>, 2> edge_contacts(const Planform& planform) {
    const double half = planform.running_length / 2;
    const std::array<double, 2> both{-half, half};
    const auto& [left, right] = planform.edge_contact;
    return {left.value_or(both), right.value_or(both)};
}

} // namespace vrid
