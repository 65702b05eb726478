#include "mesh/board/digits_apart.hpp"

#include <catch2/catch.hpp>

using vrid::digits_apart;

TEST_CASE("a value and its bound get as many digits as it takes to tell them apart, and no more") {
    CHECK(digits_apart(0.2, 0.15, 2) == 2);
    CHECK(digits_apart(0.16, 0.15, 2) == 2);
    CHECK(digits_apart(0.152, 0.15, 2) == 3);
    CHECK(digits_apart(0.15004, 0.15, 2) == 5);
    CHECK(digits_apart(20.00049, 20, 4) == 6);
    CHECK(digits_apart(1, 0.9996, 3) == 4);
    CHECK(digits_apart(-45.0001, -45, 3) == 6);
    CHECK(digits_apart(1e-9, 0, 3) == 3);
    CHECK(digits_apart(0.15, 0.15, 2) == 2); // nothing to tell apart
    CHECK(digits_apart(0.15 + 1e-16, 0.15, 2) <= 17);
}
