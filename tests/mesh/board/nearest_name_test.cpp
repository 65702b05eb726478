#include "mesh/board/nearest_name.hpp"

#include <catch2/catch.hpp>

using vrid::did_you_mean;
using vrid::nearest_name;

TEST_CASE("a misspelt name finds the nearest valid one, and a strange one finds none") {
    const std::vector<std::string> valid{"poplar", "ash", "e-glass", "s-glass", "nose-twist"};
    CHECK(nearest_name("popler", valid) == "poplar");
    CHECK(nearest_name("POPLAR", valid) == "poplar");
    CHECK(nearest_name("e_glass", valid) == "e-glass");
    CHECK(nearest_name("noes-twsit", valid) == "nose-twist"); // two swaps
    CHECK(nearest_name("asch", valid) == "ash");
    CHECK(nearest_name("titanium", valid).empty());
    CHECK(nearest_name("", valid).empty());
    CHECK(nearest_name(std::string(100000, 'a'), valid).empty());
    CHECK(did_you_mean("popler", valid) == "; did you mean 'poplar'?");
    CHECK(did_you_mean("xyzzy", {}).empty());
}
