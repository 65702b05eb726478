#include <algorithm>
#include <cmath>
#include <limits>

#include "mesh/board/outline_piece.hpp"
#include "mesh/board/planform.hpp"
#include "mesh/board/same_place.hpp"

namespace vrid {

namespace {

// Gauss points of 0..1, five of them: exact to degree 9, all that x^2 dy of a cubic needs.
constexpr std::array<double, 5> gauss_point{0.046910077030668004, 0.23076534494715845, 0.5,
                                            0.76923465505284155, 0.95308992296933200};
constexpr std::array<double, 5> gauss_weight{0.11846344252809454, 0.23931433524968324,
                                             0.28444444444444444, 0.23931433524968324,
                                             0.11846344252809454};

// Integral of f(point, tangent) dt round the outline; arcs in parts short enough for the rule.
template <typename F> double round_integral(const Planform& planform, const F& f) {
    double sum = 0;
    for (const OutlinePiece& piece : planform.outline) {
        const int parts =
            piece.radius > 0 ? 1 + static_cast<int>(4 * std::abs(piece.angle_to - piece.angle_from))
                             : 1;
        for (int k = 0; k < parts; ++k) {
            for (std::size_t g = 0; g < 5; ++g) {
                const double t = (k + gauss_point[g]) / parts;
                sum += gauss_weight[g] / parts * f(point_at(piece, t), tangent_at(piece, t));
            }
        }
    }
    return sum;
}

// Parameters at which x'(t) = 0, inside 0..1, with the ends: x is monotone between them.
std::vector<double> monotone_parts(const OutlinePiece& piece) {
    std::vector<double> t{0.0};
    const auto keep = [&](double value) {
        if (value > t.back() && value < 1) {
            t.push_back(value);
        }
    };
    if (piece.radius > 0) {
        const double turn = piece.angle_to - piece.angle_from;
        const double pi = std::acos(-1.0);
        const double low = std::min(piece.angle_from, piece.angle_to);
        std::vector<double> stops;
        const int last = static_cast<int>(std::floor((low + std::abs(turn)) / pi));
        for (int k = static_cast<int>(std::ceil(low / pi)); k <= last; ++k) {
            stops.push_back((k * pi - piece.angle_from) / turn);
        }
        std::ranges::sort(stops);
        std::ranges::for_each(stops, keep);
    } else {
        const auto& c = piece.control;
        const double d0 = c[1].x() - c[0].x();
        const double d1 = c[2].x() - c[1].x();
        const double d2 = c[3].x() - c[2].x();
        const double a = d0 - 2 * d1 + d2;
        const double b = d1 - d0;
        const double root = b * b - a * d0;
        if (root > 0) { // the two roots of a t^2 + 2 b t + d0, without cancellation
            const double q = -(b + std::copysign(std::sqrt(root), b));
            std::array<double, 2> stops{a != 0 ? q / a : 2.0, q != 0 ? d0 / q : 2.0};
            std::ranges::sort(stops);
            std::ranges::for_each(stops, keep);
        }
    }
    t.push_back(1);
    return t;
}

double root_between(const OutlinePiece& piece, double from, double to, double x) {
    const bool rising = point_at(piece, to).x() > point_at(piece, from).x();
    double t = (from + to) / 2;
    for (int step = 0; step < 100 && to - from > 1e-16; ++step) {
        const double miss = point_at(piece, t).x() - x;
        if (miss == 0) {
            return t;
        }
        ((miss > 0) == rising ? to : from) = t;
        const double slope = tangent_at(piece, t).x();
        const double newton = slope != 0 ? t - miss / slope : from;
        const bool inside = newton > from && newton < to;
        if (inside && std::abs(newton - t) < 1e-15) {
            return newton;
        }
        t = inside ? newton : (from + to) / 2;
    }
    return t;
}

// Bounds of a piece's x: a cubic lies within its control points, an arc within its circle.
std::array<double, 2> x_bounds(const OutlinePiece& piece) {
    if (piece.radius > 0) {
        return {piece.centre.x() - piece.radius, piece.centre.x() + piece.radius};
    }
    const auto& c = piece.control;
    const auto [low, high] = std::minmax({c[0].x(), c[1].x(), c[2].x(), c[3].x()});
    return {low, high};
}

// Pieces meet in one point each, that at which the next one begins: evaluated from both pieces it
// could lie on either side of the station, and the crossing be lost or found twice. The outline is
// closed, so that the number of places is even.
template <typename Below>
std::vector<OutlinePlace> crossings_by(const Planform& planform, double x, const Below& below) {
    std::vector<OutlinePlace> places;
    const std::vector<OutlinePiece>& outline = planform.outline;
    for (std::size_t k = 0; k < outline.size(); ++k) {
        const OutlinePiece& piece = outline[k];
        const bool end = below(point_at(outline[(k + 1) % outline.size()], 0).x());
        const auto [low, high] = x_bounds(piece);
        if (below(low) == end && below(high) == end) {
            continue; // most pieces, for most stations
        }
        const std::vector<double> t = monotone_parts(piece);
        bool before = below(point_at(piece, 0).x());
        for (std::size_t i = 1; i < t.size(); ++i) {
            const bool after = i + 1 == t.size() ? end : below(point_at(piece, t[i]).x());
            if (before != after) {
                places.push_back({static_cast<int>(k), root_between(piece, t[i - 1], t[i], x)});
            }
            before = after;
        }
    }
    std::ranges::sort(places, [&](const OutlinePlace& a, const OutlinePlace& b) {
        return point_at(planform, a).y() < point_at(planform, b).y();
    });
    return places;
}

} // namespace

double area(const Planform& planform) {
    return round_integral(planform, [](const Vector2d& p, const Vector2d& d) {
        return (p.x() * d.y() - p.y() * d.x()) / 2;
    });
}

Vector2d centroid(const Planform& planform) {
    const double whole = area(planform);
    const double x = round_integral(
        planform, [](const Vector2d& p, const Vector2d& d) { return p.x() * p.x() * d.y() / 2; });
    const double y = round_integral(
        planform, [](const Vector2d& p, const Vector2d& d) { return -p.y() * p.y() * d.x() / 2; });
    return {x / whole, y / whole};
}

std::array<double, 2> x_extent(const Planform& planform) {
    std::array<double, 2> extent{std::numeric_limits<double>::infinity(),
                                 -std::numeric_limits<double>::infinity()};
    for (const OutlinePiece& piece : planform.outline) {
        for (const double t : monotone_parts(piece)) {
            const double x = point_at(piece, t).x();
            extent = {std::min(extent[0], x), std::max(extent[1], x)};
        }
    }
    return extent;
}

std::vector<OutlinePlace> crossings(const Planform& planform, double x) {
    const auto below = [&x](double value) { return value < x; };
    std::vector<OutlinePlace> places = crossings_by(planform, x, below);
    if (!places.empty()) {
        return places;
    }
    const auto [tail, nose] = x_extent(planform);
    if (x < tail - same_place || x > nose + same_place) {
        return {};
    }
    // the same place as an end; a side of the board that lies across there counts
    x = std::clamp(x, tail, nose);
    return x > tail ? crossings_by(planform, x, below)
                    : crossings_by(planform, x, [x](double value) { return value <= x; });
}

std::optional<std::array<double, 2>> y_extent(const Planform& planform, double x) {
    const std::vector<OutlinePlace> places = crossings(planform, x);
    if (places.empty()) {
        return std::nullopt;
    }
    return std::array<double, 2>{point_at(planform, places.front()).y(),
                                 point_at(planform, places.back()).y()};
}

double width_at(const Planform& planform, double x) {
    const std::vector<OutlinePlace> places = crossings(planform, x);
    double width = 0;
    for (std::size_t k = 0; k + 1 < places.size(); k += 2) {
        width += point_at(planform, places[k + 1]).y() - point_at(planform, places[k]).y();
    }
    return width;
}

bool contains(const Planform& planform, const Vector2d& point) {
    const std::vector<OutlinePlace> places = crossings(planform, point.x());
    for (std::size_t k = 0; k + 1 < places.size(); k += 2) {
        if (point.y() > point_at(planform, places[k]).y() - same_place &&
            point.y() < point_at(planform, places[k + 1]).y() + same_place) {
            return true;
        }
    }
    return false;
}

} // namespace vrid
