#include "solver/laminate/half_widths.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

// A trapezium: 1 m long, 0.1 m wide at its tail, 0.3 m at its nose; left and right not alike.
Planform wedge() {
    return polygon_planform({{-0.5, -0.04}, {0.5, -0.1}, {0.5, 0.2}, {-0.5, 0.06}}, 1);
}

} // namespace

TEST_CASE("half widths are those of each side, with their places on the outline") {
    const std::vector<double> x{-0.7, -0.5, -0.123, 0.4, 0.5, 0.6};
    for (const double side : {1.0, -1.0}) {
        const HalfWidths half = half_widths(wedge(), side, x);
        for (std::size_t k = 1; k < 5; ++k) {
            const double share = x[k] + 0.5;
            CHECK(half.width[k] == Approx(side > 0 ? 0.06 + 0.14 * share : 0.04 + 0.06 * share));
            const Eigen::Vector2d p = point_at(wedge(), half.place[k]);
            CHECK(p.x() == Approx(x[k]));
            CHECK(p.y() == Approx(side * half.width[k]));
        }
        for (const std::size_t k : {0U, 5U}) { // no board
            CHECK(half.width[k] == 0);
            CHECK(half.place[k].piece == -1);
        }
    }
    // on a curved side to the fourth digit of a millimetre
    const Planform board = parametric_planform({1.1, 0.25, 0.29, 0.29, 0, 0.2, 0.2, 0.6, 0.6});
    const HalfWidths half = half_widths(board, 1, {-0.6, -0.2, 0.31, 0.66});
    for (std::size_t k = 0; k < 4; ++k) {
        const double station = std::array{-0.6, -0.2, 0.31, 0.66}[k];
        CHECK(half.width[k] == Approx((*y_extent(board, station))[1]).margin(2e-5));
    }
}

TEST_CASE("stations of the core stand for its length, the same number between any two ends") {
    Board board;
    board.planform = wedge();
    const auto sum = [](const HalfStations& stations, double from, double to) {
        double length = 0;
        for (std::size_t k = 0; k < stations.x.size(); ++k) {
            length += stations.x[k] > from && stations.x[k] < to ? stations.length[k] : 0;
        }
        return length;
    };
    const HalfStations plain = half_stations(board, {});
    CHECK(plain.x.size() == 256);
    CHECK(sum(plain, -0.5, 0.5) == Approx(1));
    CHECK(plain.x.front() == Approx(-0.5 + 0.5 / 256));
    board.sidewall = Sidewall{"abs", 0.01, Range{-0.4, 0.9}};
    board.tip_spacer = TipSpacer{"abs", {-0.45, 0.3}};
    const HalfStations cut = half_stations(board, {0.1, -0.2, 0.1, 0.35});
    CHECK(cut.x.size() == 4 * 256); // between -0.45, -0.4, -0.2, 0.1 and 0.3
    CHECK(std::is_sorted(cut.x.begin(), cut.x.end()));
    CHECK(sum(cut, -1, 1) == Approx(0.75));
    CHECK(sum(cut, -0.4, -0.2) == Approx(0.2));
    CHECK(sum(cut, 0.1, 0.3) == Approx(0.2));
}

TEST_CASE("a sidewall takes its width normal to the outline, where it is") {
    Board board;
    board.planform = wedge();
    const HalfStations stations = half_stations(board, {});
    const HalfWidths outline = half_widths(board.planform, 1, stations.x);
    CHECK(less_sidewall(board, stations, outline.width) == outline.width);
    board.sidewall = Sidewall{"abs", 0.08, Range{-0.5, 0.25}};
    const std::vector<double> half = less_sidewall(board, stations, outline.width);
    for (std::size_t k = 0; k < half.size(); ++k) {
        const double x = stations.x[k];
        const double wanted = outline.width[k] - (x <= 0.25 ? 0.08 * std::hypot(1, 0.14) : 0);
        CHECK(half[k] == Approx(std::max(0.0, wanted)).margin(1e-12));
    }
    CHECK(half[0] == 0); // narrower than the wall
    const Neighbours inner = neighbours(stations, 7);
    CHECK(inner.before == 6);
    CHECK(inner.after == 8);
    CHECK(inner.way == Approx(2.0 / 256));
    CHECK(neighbours(stations, 0).way == Approx(1.0 / 256));
    CHECK(neighbours(stations, 255).after == 255);
}
