#include "solver/lot/capability.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("Cp and Cpk are those of a published example") {
    // NIST/SEMATECH e-Handbook 6.1.6 (from memory)
    const Capability one = capability({16, 2, 100, 0, 0}, {8, 20}, 1);
    REQUIRE(one.cp);
    CHECK(*one.cp == Approx(1));
    CHECK(one.cpk == Approx(0.66667).margin(5e-6));
    // Bissell's half width by hand: 1.959964 sqrt(1/900 + 0.44444 / 198)
    CHECK(one.cpk_half_width == Approx(0.113539).margin(1e-5));
    // both tails: 1 - Phi(2) + Phi(-4)
    CHECK(one.outside == Approx(0.0227501 + 0.0000317).margin(1e-7));
    CHECK(one.low < one.outside);
    CHECK(one.high > one.outside);
    // by the nearer limit: mirrored it is the lower one; of one limit there is no Cp
    CHECK(capability({12, 2, 100, 0, 0}, {8, 20}, 1).cpk == Approx(one.cpk));
    CHECK_FALSE(capability({16, 2, 100, 0, 0}, {8, {}}, 1).cp);
    CHECK(capability({16, 2, 100, 0, 0}, {8, {}}, 1).cpk == Approx(8.0 / 6));
    CHECK(capability({16, 2, 100, 0, 0}, {{}, 20}, 1).cpk == Approx(4.0 / 6));
}

TEST_CASE("the rig's noise is taken off before boards are counted") {
    const Capability one = capability({0, 5, 50, 4, 0}, {{}, 6}, 1);
    CHECK(one.sd == Approx(3));
    CHECK(one.outside == Approx(0.0227501).margin(1e-7)); // above two deviations
    CHECK_FALSE(one.rig_too_coarse);
    CHECK(capability({0, 5, 50, 4.5, 0}, {{}, 6}, 1).rig_too_coarse);
    CHECK(capability({0, 5, 50, 6, 0}, {{}, 6}, 1).sd == 0); // the rig alone scatters by more
}

TEST_CASE("without scatter a board is outside or it is not") {
    CHECK(share_outside(1, 0, {0, 2}) == 0);
    CHECK(share_outside(-1, 0, {0, 2}) == 1);
    CHECK(share_outside(3, 0, {0, 2}) == 1);
    CHECK(share_outside(0, 1, {0, {}}) == Approx(0.5));
}

TEST_CASE("the interval of the share is that of the mean where the mean alone is uncertain") {
    // of very many cells the deviation is known; the mean by the rig's calibration, sd 0.5: the
    // share above 2 deviations lies between those at 2 -+ 0.98 for 95 % of the draws
    const Capability one = capability({0, 1, 1000000, 0, 0.5}, {{}, 2}, 3);
    CHECK(one.low == Approx(0.00144).margin(2e-4)); // 1 - Phi(2.98)
    CHECK(one.high == Approx(0.1539).margin(8e-3)); // 1 - Phi(1.02)
    const Capability exact = capability({0, 1, 1000000, 0, 0}, {{}, 2}, 3);
    CHECK(exact.high - exact.low < 1e-3);
    CHECK(capability({0, 1, 10, 0, 0}, {{}, 2}, 3).high > exact.high); // of few cells wider
}
