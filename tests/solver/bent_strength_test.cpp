// The failure index of a board bent far.
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/strength_study.hpp"
#include "tests/solver/glass_strip.hpp"

using namespace vrid;

namespace {

StrengthResult bent(std::vector<double> travels) {
    StrengthOptions options;
    options.threads = 1;
    options.degree = 2;
    options.cases = {"nose-flex"};
    options.bend = std::move(travels);
    return run_strength(vrid::tests::glass_strip(0.6), options);
}

} // namespace

TEST_CASE("a board bent a little has the index of small motion; far bent the difference grows with "
          "the square of the travel") {
    const StrengthResult result = bent({0.2e-3, 20e-3, 40e-3});
    REQUIRE(result.bent.size() == 3);
    // tips are bent up as the case pushes them: the same direction
    const StrengthResult linear = bent({});
    REQUIRE(linear.bent.empty());
    const FailurePlace& first = *linear.cases.front().first;
    const double at_failure = first.travel.value;
    std::vector<double> off;
    for (const BentIndex& one : result.bent) {
        CHECK(one.layer == first.layer);
        off.push_back(one.index.value * std::pow(at_failure / one.travel, 2) - 1);
    }
    CAPTURE(off[0], off[1], off[2], at_failure);
    // two elements: the bent one ties its membrane strain too
    CHECK(std::abs(off[0]) < result.bent[0].index.error / result.bent[0].index.value);
    CHECK(std::abs(off[2]) > std::abs(off[1]));
    CHECK(std::abs(off[2]) < 0.5);
    for (const BentIndex& one : result.bent) {
        CHECK(one.index.error > 0);
    }
}
