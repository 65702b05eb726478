#include "solver/bent_limits.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

constexpr double one_degree = std::numbers::pi / 180;

} // namespace

TEST_CASE("what passes a limit of the bent board by a hair is printed above it") {
    CHECK(bent_warnings("nose-flex bent", std::cos(44.9 * one_degree), 0.01).empty());
    CHECK(bent_warnings("nose-flex bent", std::cos(45.002 * one_degree), 0.010004) ==
          std::vector<std::string>{
              "nose-flex bent: a strain of 0.010004 passes 0.01: large strains are not modelled",
              "nose-flex bent: the surface has turned by 45.002 degrees, more than 45"});
    CHECK(bent_warnings("nose-flex bent", std::cos(61.23 * one_degree), 0.0234)[0].find(
              "0.0234 passes") != std::string::npos);
}
