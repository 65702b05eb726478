// Ranges of numbers and how they are told.
#include "io/toml/accepted.hpp"

#include <cmath>
#include <stdexcept>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a bound is accepted unless it is open; what is not finite never is") {
    const Accepted closed{"x_mm", -1, 2, false, false};
    const Accepted open{"x_mm", -1, 2, true, true};
    for (const double value : {-1.0, 0.0, 2.0}) {
        CHECK(is_accepted(closed, value));
        CHECK(is_accepted(open, value) == (value == 0));
    }
    for (const double value : {-1.0000001, 2.0000001, HUGE_VAL, -HUGE_VAL, std::nan("")}) {
        CHECK_FALSE(is_accepted(closed, value));
        CHECK_FALSE(is_accepted(open, value));
    }
    const Accepted endless{"x", -HUGE_VAL, HUGE_VAL};
    CHECK_FALSE(is_accepted(endless, HUGE_VAL));
}

TEST_CASE("a range is told with its bounds, open or not, and the unit of its key") {
    CHECK(accepted_text({"core.x_mm", -5000, 5000}) == "a number from -5000 to 5000 (mm)");
    CHECK(accepted_text({"edge.force_N", 0, 1e5, true}) == "a number above 0 to 100000 (N)");
    CHECK(accepted_text({"material.nu", -1, 0.5, true, true}) == "a number above -1 and below 0.5");
    CHECK(number_text(0.1 + 0.2) == "0.3");
    CHECK(number_text(1e12) == "1e+12");
}

TEST_CASE("every key that is read as a number has a range; others are a fault of the program") {
    CHECK(accepted("planform.waist_width_mm").min >= 0);
    CHECK(accepted("edge.angle_deg").min == 10);
    CHECK(accepted("edge.angle_deg").max == 80);
    CHECK(accepted("edge.share").max == 1);
    CHECK(accepted("target.percent").min == -100);
    CHECK(accepted("tolerance").min_open);
    CHECK_THROWS_AS(accepted("planform.nothing_mm"), std::logic_error);
    CHECK_THROWS_AS(accepted("waist_width_mm"), std::logic_error);
}
