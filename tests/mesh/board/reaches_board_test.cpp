#include "mesh/board/check_zones.hpp"

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Vector2d;

namespace {

const Planform long_plate = rectangle_planform(1.0, 0.2);

bool reaches(const Zone& zone) {
    return reaches_board(zone, long_plate);
}

std::vector<Vector2d> box(double x0, double x1, double y0, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

} // namespace

TEST_CASE("stations and sides reach the board when they overlap it") {
    CHECK(reaches({}));
    CHECK(reaches({Range{0.49, 0.6}, {}, {}, {}, {}}));
    CHECK_FALSE(reaches({Range{0.51, 0.6}, {}, {}, {}, {}}));
    CHECK_FALSE(reaches({Range{-0.6, -0.51}, {}, {}, {}, {}}));
    CHECK(reaches({{}, Range{0.09, 0.2}, {}, {}, {}}));
    CHECK_FALSE(reaches({{}, Range{0.1001, 0.2}, {}, {}, {}}));
    CHECK_FALSE(reaches({{}, Range{-0.2, -0.1001}, {}, {}, {}}));
}

TEST_CASE("a band is there as long as it begins within half the width") {
    CHECK(reaches({{}, {}, {}, Range{0.09, 0.3}, {}}));
    CHECK_FALSE(reaches({{}, {}, {}, Range{0.1001, 0.3}, {}}));
}

TEST_CASE("a ribbon is there by its ends, its sides or its middle") {
    const auto ribbon = [](const Vector2d& from, const Vector2d& to, double width) {
        return Zone{{}, {}, Ribbon{from, to, width}, {}, {}};
    };
    CHECK(reaches(ribbon({0.4, 0.3}, {0.4, 0.099}, 0.01)));
    CHECK_FALSE(reaches(ribbon({0.4, 0.3}, {0.4, 0.101}, 0.01)));
    CHECK(reaches(ribbon({-0.4, 0.12}, {0.4, 0.12}, 0.05))); // its side
    CHECK_FALSE(reaches(ribbon({-0.4, 0.12}, {0.4, 0.12}, 0.03)));
    CHECK(reaches(ribbon({-0.4, -0.3}, {0.4, 0.3}, 0.01))); // right across
    Zone cut = ribbon({-0.4, -0.3}, {0.4, 0.3}, 0.01);
    cut.x = Range{0.2, 0.3}; // where it is beyond the side
    CHECK_FALSE(reaches(cut));
}

TEST_CASE("a polygon is there by a corner or by what lies between its sides") {
    const auto polygon = [](const std::vector<Vector2d>& corners) {
        return Zone{{}, {}, {}, {}, corners};
    };
    CHECK(reaches(polygon(box(0.49, 0.6, 0.09, 0.2))));
    CHECK(reaches(polygon(box(-1, 1, -1, 1))));      // no corner on the board
    CHECK(reaches(polygon(box(0.2, 0.202, -1, 1)))); // narrower than a hundredth of its length
    CHECK_FALSE(reaches(polygon(box(-1, 1, 0.11, 1))));
    CHECK_FALSE(reaches(polygon(box(0.51, 1, -1, 1))));
    // between the arms of a U, whose corners lie off the board
    CHECK_FALSE(reaches(polygon(
        {{-1, -1}, {1, -1}, {1, 1}, {0.9, 1}, {0.9, -0.9}, {-0.9, -0.9}, {-0.9, 1}, {-1, 1}})));
}

TEST_CASE("where a zone has several bounds, the board is reached where all of them hold") {
    Zone zone{{}, {}, {}, {}, box(0, 0.1, -0.05, 0)};
    CHECK(reaches(zone));
    zone.y = Range{0.02, 0.08}; // beside the polygon
    CHECK_FALSE(reaches(zone));
    zone.y = Range{-0.03, -0.02}; // within it, between its corners
    CHECK(reaches(zone));
    zone.polygon = box(0.0001, 0.0011, -0.05, 0); // a millimetre long
    CHECK(reaches(zone));
    zone.x = Range{0.5, 0.6};
    CHECK_FALSE(reaches(zone));
    zone = {Range{0, 0.1}, Range{0.02, 0.08}, {}, {}, box(0.05, 0.2, 0.07, 0.2)};
    CHECK(reaches(zone));
}
