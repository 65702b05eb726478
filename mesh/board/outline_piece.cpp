#include "mesh/board/outline_piece.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "mesh/board/cross.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

Vector2d point_at(const OutlinePiece& piece, double t) {
    if (piece.radius > 0) {
        const double angle = piece.angle_from + t * (piece.angle_to - piece.angle_from);
        return piece.centre + piece.radius * Vector2d(std::cos(angle), std::sin(angle));
    }
    const double s = 1 - t;
    const auto& c = piece.control;
    return s * s * s * c[0] + 3 * s * s * t * c[1] + 3 * s * t * t * c[2] + t * t * t * c[3];
}

Vector2d tangent_at(const OutlinePiece& piece, double t) {
    if (piece.radius > 0) {
        const double turn = piece.angle_to - piece.angle_from;
        const double angle = piece.angle_from + t * turn;
        return piece.radius * turn * Vector2d(-std::sin(angle), std::cos(angle));
    }
    const double s = 1 - t;
    const auto& c = piece.control;
    return 3 * (s * s * (c[1] - c[0]) + 2 * s * t * (c[2] - c[1]) + t * t * (c[3] - c[2]));
}

Vector2d bend_at(const OutlinePiece& piece, double t) {
    if (piece.radius > 0) {
        const double turn = piece.angle_to - piece.angle_from;
        const double angle = piece.angle_from + t * turn;
        return -piece.radius * turn * turn * Vector2d(std::cos(angle), std::sin(angle));
    }
    const auto& c = piece.control;
    return 6 * ((1 - t) * (c[2] - 2 * c[1] + c[0]) + t * (c[3] - 2 * c[2] + c[1]));
}

OutlinePiece straight_piece(const Vector2d& a, const Vector2d& b) {
    OutlinePiece piece;
    piece.control = {a, a + (b - a) / 3, b - (b - a) / 3, b};
    return piece;
}

std::vector<double> flat_parameters(const OutlinePiece& piece, double sag) {
    // |chord - curve| <= h^2 / 8 max |C''| for a step h of the parameter; C'' is linear in t
    // (cubic) or of constant length (arc), so its largest length in an interval is at an end
    std::vector<double> parameters{0.0};
    const auto steps = [&](double from, double to) {
        const double bend = std::max(bend_at(piece, from).norm(), bend_at(piece, to).norm());
        return std::clamp(static_cast<int>(std::ceil((to - from) * std::sqrt(bend / (8 * sag)))), 1,
                          4096);
    };
    const int whole = steps(0, 1);
    const int parts = std::min(whole, 8); // refined part by part: the bend may be local
    for (int i = 0; i < parts; ++i) {
        const double from = static_cast<double>(i) / parts;
        const double to = static_cast<double>(i + 1) / parts;
        const int n = steps(from, to);
        for (int k = 1; k <= n; ++k) {
            parameters.push_back(k == n ? to : from + (to - from) * k / n);
        }
    }
    return parameters;
}

namespace {

struct Chord {
    Vector2d a, b;
    int index;
};

bool properly_crossing(const Chord& p, const Chord& q) {
    const Vector2d r = p.b - p.a;
    const Vector2d s = q.b - q.a;
    const double a = cross(r, q.a - p.a);
    const double b = cross(r, q.b - p.a);
    const double c = cross(s, p.a - q.a);
    const double d = cross(s, p.b - q.a);
    return ((a > 0) != (b > 0)) && ((c > 0) != (d > 0)) && (a != b) && (c != d);
}

std::vector<Chord> chords_of(const Planform& planform) {
    constexpr double sag = 5e-6; // a crossing shallower than this cannot be cut either
    std::vector<Chord> chords;
    for (const OutlinePiece& piece : planform.outline) {
        const std::vector<double> t = flat_parameters(piece, sag);
        for (std::size_t k = 0; k + 1 < t.size(); ++k) {
            chords.push_back({point_at(piece, t[k]), point_at(piece, t[k + 1]),
                              static_cast<int>(chords.size())});
        }
    }
    return chords;
}

} // namespace

void check_no_self_crossing(const Planform& planform) {
    std::vector<Chord> chords = chords_of(planform);
    const int count = static_cast<int>(chords.size());
    const auto low = [](const Chord& c) { return std::min(c.a.x(), c.b.x()); };
    const auto high = [](const Chord& c) { return std::max(c.a.x(), c.b.x()); };
    std::ranges::sort(chords, [&](const Chord& p, const Chord& q) {
        return low(p) < low(q) || (low(p) == low(q) && p.index < q.index);
    });
    for (std::size_t i = 0; i < chords.size(); ++i) {
        for (std::size_t k = i + 1; k < chords.size() && low(chords[k]) <= high(chords[i]); ++k) {
            const int apart = std::abs(chords[i].index - chords[k].index);
            if (apart > 1 && apart < count - 1 && properly_crossing(chords[i], chords[k])) {
                throw InputError(
                    "planform",
                    "the outline crosses itself near x = " + std::to_string(chords[i].a.x() * 1e3) +
                        " mm, y = " + std::to_string(chords[i].a.y() * 1e3) + " mm");
            }
        }
    }
}

} // namespace vrid
