#include "solver/strength/leading_ways.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

void add_weakness(std::map<Way, Weakness>& to, int layer, double factor, bool breaking) {
    Weakness one;
    one.layer = layer;
    one.factor = factor;
    one.breaking = breaking;
    to[{layer, FailureMode::crack_across}] = one;
}

} // namespace

TEST_CASE("the first failure is the least of all, the breaking one the least that breaks") {
    FoundFailures found;
    add_weakness(found.weakest.anywhere, 0, 3, true);
    add_weakness(found.weakest.anywhere, 1, 1, false);
    add_weakness(found.weakest.anywhere, 2, 2, true);
    add_weakness(found.weakest.anywhere, 3, 5, false);
    add_weakness(found.weakest.anywhere, 4, 4, false);
    add_weakness(found.weakest.away, 3, 7, false);
    add_weakness(found.weakest.away, 2, 6, false);
    pick(found);
    REQUIRE(found.first != nullptr);
    CHECK(found.first->layer == 1);
    CHECK(found.breaking->layer == 2);
    CHECK(found.away->layer == 2);
    const auto next = next_weaknesses(found);
    REQUIRE(next.size() == 3); // without the first
    CHECK(next[0]->factor == 2);
    CHECK(next[1]->factor == 3);
    CHECK(next[2]->factor == 4);
    FoundFailures none;
    pick(none);
    CHECK(none.first == nullptr);
    CHECK(none.breaking == nullptr);
    CHECK(next_weaknesses(none).empty());
}

TEST_CASE("six leading ways anywhere and away are looked at closely, and two that break") {
    Weakest weakest;
    for (int layer = 0; layer < 10; ++layer) { // the last ones least; 0 and 1 break, and 2
        add_weakness(weakest.anywhere, layer, 20.0 - layer, layer < 3);
        add_weakness(weakest.away, layer, 20.0 + layer, false);
    }
    std::vector<int> layers;
    for (const Way& way : leading_ways(weakest)) {
        layers.push_back(way.first);
    }
    // 9 to 4 anywhere, of the breaking ones 2 and 1, away 0 to 5: each once
    CHECK(layers == std::vector<int>{9, 8, 7, 6, 5, 4, 2, 1, 0, 3});
}

TEST_CASE("a way leads among the breaking ones by its places that almost break, too") {
    Weakest weakest;
    for (int layer = 0; layer < 12; ++layer) { // the first ones least; the last five break
        add_weakness(weakest.anywhere, layer, 20.0 + layer, layer >= 7);
    }
    Weakness near = weakest.anywhere.at({11, FailureMode::crack_across});
    near.factor = 21;
    near.along = 0.9;
    REQUIRE(near.almost());
    weakest.others[{11, FailureMode::crack_across}] = {near};
    std::vector<int> layers;
    for (const Way& way : leading_ways(weakest)) {
        layers.push_back(way.first);
    }
    CHECK(layers == std::vector<int>{0, 1, 2, 3, 4, 5, 11, 7});
}
