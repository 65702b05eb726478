#include "mesh/curve.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/outline_piece.hpp"
#include "mesh/line_stops.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

constexpr double pi = std::numbers::pi;

OutlinePiece arc_piece(double radius, double from, double to) {
    OutlinePiece piece;
    piece.radius = radius;
    piece.angle_from = from;
    piece.angle_to = to;
    return piece;
}

Loop circle_loop(double radius, double offset, bool fan = false) {
    return Loop({{arc_piece(radius, 0, pi), 0, 1, offset, false, fan},
                 {arc_piece(radius, pi, 2 * pi), 0, 1, offset, false, fan}});
}

} // namespace

TEST_CASE("an offset goes to the left of the way, on arcs and on cubics") {
    CHECK((point_on({arc_piece(0.5, 0, pi / 2), 0, 1, 0.1}, 0) - Vector2d(0.4, 0)).norm() < 1e-15);
    CHECK((point_on({arc_piece(0.5, pi / 2, 0), 0, 1, 0.1}, 1) - Vector2d(0.6, 0)).norm() < 1e-15);
    const OutlinePiece up = straight_piece({1, 0}, {1, 2});
    CHECK((point_on({up, 0, 1, 0.1}, 0.25) - Vector2d(0.9, 0.5)).norm() < 1e-15);
}

TEST_CASE("along straight sides the parameter of a loop is the length of the way, taken round") {
    const Loop loop = outline_loop(polygon_planform({{0, 0}, {2, 0}, {2, 1}, {0, 1}}, 1));
    REQUIRE(loop.length() == Approx(6).epsilon(1e-12));
    const std::vector<double> corners = loop.corners();
    REQUIRE(corners.size() == 4);
    const Vector2d first = loop.point(0);
    for (std::size_t k = 0; k < 4; ++k) {
        const double s = corners[k];
        const double next = k == 3 ? 6 : corners[k + 1];
        CHECK(next - s == Approx(s == 0 ? next : next - s));
        const Vector2d way = loop.direction((s + next) / 2);
        CHECK((loop.point(s + 0.3) - loop.point(s) - 0.3 * way).norm() < 1e-12);
        CHECK(way.norm() == Approx(1));
    }
    CHECK((loop.point(6) - first).norm() < 1e-12);
    CHECK((loop.point(-1.5) - loop.point(4.5)).norm() < 1e-12);
    CHECK((loop.point(13.5) - loop.point(1.5)).norm() < 1e-12);
}

TEST_CASE("even steps of the parameter are even on a circle, and parallels share its normals") {
    const Loop rim = circle_loop(0.2, 0);
    const Loop inner = circle_loop(0.2, 0.05);
    for (int k = 0; k < 24; ++k) {
        const double share = k / 24.0;
        const Vector2d ray(std::cos(2 * pi * share), std::sin(2 * pi * share));
        CHECK((rim.point(share * rim.length()) - 0.2 * ray).norm() < 1e-9);
        CHECK((inner.point(share * inner.length()) - 0.15 * ray).norm() < 1e-9);
        CHECK((rim.direction(share * rim.length()) - Vector2d(-ray.y(), ray.x())).norm() < 1e-8);
    }
    CHECK(circle_loop(0.2, 0.05, true).length() == Approx(2 * pi * 0.2)); // of a fan: plain
    // a turn of a radian counts like up to 5 cm: the more the sharper it is
    const double wide = circle_loop(0.5, 0).length() / (2 * pi * 0.5) - 1;
    const double sharp = rim.length() / (2 * pi * 0.2) - 1;
    CHECK(wide > 0);
    CHECK(sharp > 1.5 * wide);
    CHECK(sharp < 0.05 / 0.2);
    // and one sharper than 2 cm no more than that
    const double sharpest = circle_loop(0.002, 0).length() / (2 * pi * 0.002) - 1;
    CHECK(sharpest < 0.05 / 0.02);
    CHECK(sharpest > 0.8 * 0.05 / 0.02);
    // near its centre of curvature a parallel has no length left
    CHECK(circle_loop(0.2, 0.1).length() == Approx(rim.length() * (1 - 1.0 / 16)));
}

TEST_CASE("round a notch, where the outline turns inwards, a parallel keeps the outline's pace") {
    // a turn of 5 mm radius to the right between two of 100 mm to the left; on the parallel it is
    // 35 mm long and on no account to be passed in one step
    const auto notch = [](double offset) {
        return Loop({{arc_piece(0.1, 0, pi), 0, 1, offset},
                     {arc_piece(0.005, pi, 0), 0, 1, offset},
                     {arc_piece(0.1, pi, 2 * pi), 0, 1, offset}});
    };
    const Loop rim = notch(0);
    const Loop parallel = notch(0.03);
    const auto turn_of = [](const Loop& loop) { // how far the parameter rises along it
        double from = loop.length();
        double to = 0;
        for (const Loop::Sample& sample : loop.samples()) {
            from = sample.span == 1 ? std::min(from, sample.s) : from;
            to = sample.span == 1 ? sample.s : to;
        }
        return to - from;
    };
    CHECK(turn_of(rim) > pi * 0.005);
    CHECK(turn_of(parallel) == Approx(turn_of(rim)).epsilon(0.3)); // but for the last step
}

TEST_CASE("on a board's outline one share of two near parallels lies on one normal") {
    const Planform planform = parametric_planform({1.1, 0.25, 0.29, 0.29, 0, 0.2, 0.2, 0.6, 0.6});
    std::vector<CurveSpan> spans;
    for (const OutlinePiece& piece : planform.outline) {
        spans.push_back({piece, 0, 1, 0.002});
    }
    const Loop rim = outline_loop(planform);
    const Loop inner{spans};
    for (int k = 0; k < 97; ++k) {
        const double share = k / 97.0;
        const Vector2d apart =
            inner.point(share * inner.length()) - rim.point(share * rim.length());
        const Vector2d way = rim.direction(share * rim.length());
        CHECK(apart.norm() == Approx(0.002).epsilon(1e-6));
        CHECK(std::abs(apart.dot(way)) < 2e-6);
        // its samples are a polyline within 0.02 mm, no step longer than a centimetre
    }
    const auto& samples = rim.samples();
    for (std::size_t i = 0; i + 1 < samples.size(); ++i) {
        const Vector2d chord = samples[i + 1].point - samples[i].point;
        const Vector2d middle = rim.point((samples[i].s + samples[i + 1].s) / 2);
        const Vector2d from = middle - samples[i].point;
        CHECK(std::abs(chord.x() * from.y() - chord.y() * from.x()) / chord.norm() < 2e-5);
        CHECK(chord.norm() < 0.01 * (1 + 1e-3));
        CHECK(samples[i + 1].s > samples[i].s);
    }
    CHECK(rim.corners().empty());
}
