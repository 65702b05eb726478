#include "io/write/held_limits.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

LimitVerdict at_most(const std::string& name, double value, double max) {
    LimitVerdict verdict;
    verdict.name = name;
    verdict.limit.max = max;
    verdict.found = Measured{{value, 0.01, "deg"}};
    verdict.exceeded = value > max;
    return verdict;
}

} // namespace

TEST_CASE("the number in a condition's name stands behind snow, side, share and motion") {
    CHECK(number_in_condition("edge 45 deg 800 N 5 N/mm3 loss nose") == "loss nose");
    CHECK(number_in_condition("edge 22.5 deg 800 N 10 N/mm2 peak") == "peak");
    CHECK(number_in_condition("edge 45 deg 800 N 5 N/mm3 right loss nose twist") ==
          "loss nose twist");
    CHECK(number_in_condition("edge 45 deg 8 N 5 N/mm3 right share 0.4 bent share nose") ==
          "share nose");
    CHECK(number_in_condition("edge 45 deg 8 N 5 N/mm3 share middle") == "share middle");
    for (const char* none :
         {"edge.loss_nose", "nose-twist", "edge 45 deg 800 N 5 N/mm3",
          "edge 45 deg 800 N 5 N/mm3 share 0.4", "edge 4 deg 8 N 5 N/mm3 bent"}) {
        CAPTURE(none);
        CHECK(number_in_condition(none).empty());
    }
}

TEST_CASE("one limit in several conditions is told by the worst, with how many are outside; other "
          "bounds, other numbers and bench cases stand alone") {
    const std::vector<LimitVerdict> verdicts{
        at_most("edge 30 deg 800 N 5 N/mm3 loss nose", 1.9, 2),
        at_most("edge 30 deg 800 N 5 N/mm3 peak", 1.9, 2),
        at_most("edge 45 deg 800 N 5 N/mm3 loss nose", 2.8, 2),
        at_most("edge 45 deg 800 N 5 N/mm3 peak", 1.5, 2),
        at_most("edge 60 deg 800 N 5 N/mm3 loss nose", 2.2, 2),
        at_most("edge 70 deg 800 N 5 N/mm3 loss nose", 9.2, 3), // a limit of its own
        at_most("nose-twist", 1, 2),
        at_most("tail-twist", 3, 2)};
    const std::vector<HeldLimit> held = held_limits(verdicts);
    REQUIRE(held.size() == 5);
    CHECK(held[0].worst.name == "edge 45 deg 800 N 5 N/mm3 loss nose");
    CHECK(conditions_words(held[0]) == "in 2 of 3 conditions");
    CHECK(held[1].worst.name == "edge 30 deg 800 N 5 N/mm3 peak"); // nearest to its bound
    CHECK(conditions_words(held[1]) == "in all 2 conditions");
    for (std::size_t i = 2; i < held.size(); ++i) {
        CHECK(held[i].conditions == 1);
        CHECK(conditions_words(held[i]).empty());
    }
    CHECK(held[4].outside == 1);
}

TEST_CASE("of limits from below the least is the worst; one without a number stands alone") {
    LimitVerdict low = at_most("edge 30 deg 8 N 5 N/mm3 effective length", 900, 0);
    low.limit = {950, {}};
    low.exceeded = true;
    LimitVerdict lower = low;
    lower.name = "edge 45 deg 8 N 5 N/mm3 effective length";
    lower.found->value = 800;
    LimitVerdict none = low;
    none.found.reset();
    none.exceeded = false;
    const std::vector<HeldLimit> held = held_limits({none, low, lower});
    REQUIRE(held.size() == 2);
    CHECK(held[1].worst.name == lower.name);
    CHECK(conditions_words(held[1]) == "in all 2 conditions");
}
