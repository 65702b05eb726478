// A load raised until a use of 1 is reached, or honestly not.
#include "solver/loaded_edge.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a use that goes with the load is found at the second try, from below and from above") {
    for (const double start : {900.0, 1500.0, 300.0, 7000.0}) {
        const RaisedLoad found = raise_load(start, 1e5, [](double load) {
            return LoadTry{load / 1234, ""};
        });
        CAPTURE(start);
        CHECK(found.why_not.empty());
        CHECK(found.load == Approx(1234).epsilon(1e-3));
        CHECK(found.tries == 2);
    }
}

TEST_CASE("a use that grows otherwise, with a kink, or a jump of slope is found to a thousandth") {
    const auto slow = [](double load) { return LoadTry{std::pow(load / 5000, 0.4), ""}; };
    const RaisedLoad a = raise_load(800, 1e5, slow);
    CHECK(a.load == Approx(5000).epsilon(2.6e-3));
    CHECK(a.growth == Approx(0.4).epsilon(0.05));
    CHECK(a.tries < 8);
    const auto kinked = [](double load) {
        return LoadTry{std::max(0.3 + load / 1e5, std::pow(load / 4000, 3)), ""};
    };
    const RaisedLoad b = raise_load(200, 1e5, kinked);
    CHECK(b.why_not.empty());
    CHECK(b.load == Approx(4000).epsilon(1e-3));
    CHECK(std::abs(b.use - 1) < 1.1e-3);
}

TEST_CASE("where it ends is told: at the largest load, at one without a state, at nothing") {
    const RaisedLoad weak = raise_load(800, 1e5, [](double load) {
        return LoadTry{1e-7 * load, ""};
    });
    CHECK(weak.load == Approx(1e5));
    CHECK(weak.use == Approx(1e-2));
    CHECK_FALSE(weak.why_not.empty());
    const auto tips = [](double load) {
        return load > 2000 ? LoadTry{0, "it tips"} : LoadTry{load / 3000, ""};
    };
    const RaisedLoad lost = raise_load(800, 1e5, tips);
    CHECK(lost.why_not == "it tips");
    CHECK(lost.load == Approx(2000).epsilon(2e-3));
    CHECK(lost.load <= 2000);
    const auto just = [](double load) {
        return load > 3100 ? LoadTry{0, "it tips"} : LoadTry{std::sqrt(load / 3000), ""};
    };
    CHECK(raise_load(800, 1e5, just).load == Approx(3000).epsilon(2.1e-3));
    const RaisedLoad high = raise_load(800, 1e5, [](double) {
        return LoadTry{1.5, ""};
    }); // whatever the load
    CHECK_FALSE(high.why_not.empty());
    CHECK(high.load <= 0.81);
    CHECK(high.use == Approx(1.5));
}
