#include "solver/strength_bar.hpp"

#include <catch2/catch.hpp>

#include "solver/response/error_bar.hpp"

using namespace vrid;

namespace {

Weakness weakness(double factor, int layer, bool breaking) {
    Weakness one;
    one.factor = factor;
    one.layer = layer;
    one.mode = FailureMode::core_shear;
    one.breaking = breaking;
    return one;
}

std::map<Way, Weakness> ways(const std::vector<Weakness>& all) {
    std::map<Way, Weakness> by_way;
    for (const Weakness& one : all) {
        by_way.insert({{one.layer, one.mode}, one});
    }
    return by_way;
}

} // namespace

TEST_CASE("a way behind the least, which falls from degree to degree, widens the least's bar to "
          "where it may end") {
    const auto fine = ways({weakness(16.69, 0, true), weakness(17.58, 1, true)});
    const auto coarse = ways({weakness(16.82, 0, true), weakness(20.51, 1, true)});
    const double share = least_bar(3, fine.begin()->second, 0.02, {&coarse, &fine});
    const double stress = 1.5 * (1 - 17.58 / 20.51) + 1e-3;
    CHECK(share == Approx(1 - 17.58 / (1 + stress) / 16.69));
    const auto steady = ways({weakness(16.82, 0, true), weakness(17.6, 1, true)});
    CHECK(least_bar(3, fine.begin()->second, 0.02, {&steady, &fine}) == Approx(0.02));
}

TEST_CASE("ways that cannot be the least do not widen its bar: far behind, seen by one degree, not "
          "breaking where breaks are asked for") {
    const auto coarse =
        ways({weakness(10, 0, true), weakness(1e4, 1, true), weakness(20, 3, false)});
    const auto fine = ways({weakness(10, 0, true), weakness(40, 1, true), weakness(11, 2, true),
                            weakness(11, 3, false)});
    const Weakness& least = fine.begin()->second;
    CHECK(least_bar(3, least, 0.01, {&coarse, &fine}, true) == Approx(0.01));
    CHECK(least_bar(3, least, 0.01, {&coarse, &fine}) > 0.3); // the one that does not break
}

TEST_CASE("at degree 1, which has no lower one, no way has a bar") {
    const auto fine = ways({weakness(10, 0, true), weakness(11, 1, true)});
    CHECK(least_bar(1, fine.begin()->second, no_bar, {&fine, &fine}) == no_bar);
    CHECK(strength_bar(3, 0.02) == Approx(0.031));
}
