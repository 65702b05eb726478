#include "solver/strength_bar.hpp"

#include <catch2/catch.hpp>

#include "solver/response/error_bar.hpp"

using namespace vrid;

TEST_CASE(
    "a failure behind the least, which falls from degree to degree, widens the least's bar to "
    "where it may end") {
    const double share = least_bar(3, 16.69, 0.02, {{16.69, 16.82}, {17.58, 20.51}});
    const double stress = 1.5 * (1 - 17.58 / 20.51) + 1e-3;
    CHECK(share == Approx(1 - 17.58 / (1 + stress) / 16.69));
    CHECK(least_bar(3, 16.69, 0.02, {{16.69, 16.82}, {17.58, 17.6}}) == Approx(0.02));
}

TEST_CASE(
    "failures that cannot be the least do not widen its bar: far behind, or before any load") {
    CHECK(least_bar(3, 10, 0.01, {{40, 1e4}, {0, 0}, {20, 20}}) == Approx(0.01));
    CHECK(least_bar(3, 10, 0.01, {{11, 20}}) > 0.3);
}

TEST_CASE("at degree 1, which has no lower one, no failure has a bar") {
    CHECK(least_bar(1, 10, no_bar, {{10, 10}, {11, 11}}) == no_bar);
    CHECK(strength_bar(3, 0.02) == Approx(0.031));
}
