#include "mesh/board/outline_piece.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/cross.hpp"
#include "mesh/board/error.hpp"

using namespace vrid;
using Eigen::Vector2d;

namespace {

// The cubic with x = 1 + 2 t - t^2 + 4 t^3, y = t^2 - 3 t^3 in Bernstein's form:
// control points c0, c0 + a1/3, c0 + 2 a1/3 + a2/3, c0 + a1 + a2 + a3.
OutlinePiece cubic_piece() {
    OutlinePiece piece;
    piece.control = {Vector2d(1, 0), Vector2d(1 + 2.0 / 3, 0),
                     Vector2d(1 + 4.0 / 3 - 1.0 / 3, 1.0 / 3), Vector2d(6, -2)};
    return piece;
}

OutlinePiece quarter_arc(double from, double to) {
    OutlinePiece piece;
    piece.centre = {0.3, -0.2};
    piece.radius = 0.5;
    piece.angle_from = from;
    piece.angle_to = to;
    return piece;
}

} // namespace

TEST_CASE("a cubic piece and its derivatives are those of the polynomial") {
    const OutlinePiece piece = cubic_piece();
    for (const double t : {0.0, 0.3, 0.8, 1.0}) {
        CHECK((point_at(piece, t) -
               Vector2d(1 + 2 * t - t * t + 4 * t * t * t, t * t - 3 * t * t * t))
                  .norm() < 1e-14);
        CHECK((tangent_at(piece, t) - Vector2d(2 - 2 * t + 12 * t * t, 2 * t - 9 * t * t)).norm() <
              1e-14);
        CHECK((bend_at(piece, t) - Vector2d(-2 + 24 * t, 2 - 18 * t)).norm() < 1e-13);
    }
}

TEST_CASE("an arc goes from angle to angle, its derivatives by its share of the turn") {
    for (const bool back : {false, true}) {
        const double from = back ? 2.0 : 0.4;
        const double to = back ? 0.4 : 2.0;
        const OutlinePiece arc = quarter_arc(from, to);
        for (const double t : {0.0, 0.25, 1.0}) {
            const double angle = from + t * (to - from);
            const Vector2d ray(std::cos(angle), std::sin(angle));
            CHECK((point_at(arc, t) - Vector2d(0.3, -0.2) - 0.5 * ray).norm() < 1e-15);
            constexpr double h = 1e-5;
            CHECK((tangent_at(arc, t) - (point_at(arc, t + h) - point_at(arc, t - h)) / (2 * h))
                      .norm() < 1e-9);
            CHECK((bend_at(arc, t) - (tangent_at(arc, t + h) - tangent_at(arc, t - h)) / (2 * h))
                      .norm() < 1e-9);
        }
    }
}

TEST_CASE("a straight piece runs evenly and needs one chord") {
    const OutlinePiece piece = straight_piece({1, 2}, {4, -2});
    CHECK((point_at(piece, 0.25) - Vector2d(1.75, 1)).norm() < 1e-15);
    CHECK(bend_at(piece, 0.4).norm() < 1e-14);
    CHECK(flat_parameters(piece, 1e-6) == std::vector<double>{0, 1});
}

TEST_CASE("chords stay within their sag, on arcs not far within it") {
    for (const double sag : {1e-3, 1e-5}) {
        const OutlinePiece arc = quarter_arc(0, std::numbers::pi / 2);
        const std::vector<double> t = flat_parameters(arc, sag);
        CHECK(t.front() == 0);
        CHECK(t.back() == 1);
        // an arc's sag is r (1 - cos(turn / 2)) = s: at least turn / (2 acos(1 - s / r)) chords
        const double least = std::numbers::pi / 2 / (2 * std::acos(1 - sag / 0.5));
        CHECK(static_cast<double>(t.size() - 1) >= least);
        CHECK(static_cast<double>(t.size() - 1) <= least + 8); // in eight parts, each to a whole
        for (const OutlinePiece& piece : {arc, cubic_piece()}) {
            const std::vector<double> stops = flat_parameters(piece, sag);
            for (std::size_t k = 0; k + 1 < stops.size(); ++k) {
                CHECK(stops[k] < stops[k + 1]);
                const Vector2d a = point_at(piece, stops[k]);
                const Vector2d chord = point_at(piece, stops[k + 1]) - a;
                const Vector2d middle = point_at(piece, (stops[k] + stops[k + 1]) / 2) - a;
                CHECK(std::abs(cross(chord, middle)) / chord.norm() < sag);
            }
        }
    }
}

TEST_CASE("an outline that crosses itself is refused at the place, one that comes near is not") {
    const auto outline = [](const std::vector<Vector2d>& corners) {
        Planform planform;
        for (std::size_t k = 0; k < corners.size(); ++k) {
            planform.outline.push_back(
                straight_piece(corners[k], corners[(k + 1) % corners.size()]));
        }
        return planform;
    };
    CHECK_NOTHROW(check_no_self_crossing(outline({{0, 0}, {1, 0}, {1, 1}, {0, 1}})));
    CHECK_NOTHROW(
        check_no_self_crossing(outline({{0, 0}, {1, 0.499}, {2, 0}, {2, 1}, {1, 0.501}, {0, 1}})));
    CHECK_THROWS_AS(
        check_no_self_crossing(outline({{0, 0}, {1, 0.501}, {2, 0}, {2, 1}, {1, 0.499}, {0, 1}})),
        InputError);
    CHECK_THROWS_WITH(check_no_self_crossing(outline({{0.2, 0.3}, {1, 1}, {1, 0}, {0.2, 0.6}})),
                      Catch::Contains("x = 200"));
}
