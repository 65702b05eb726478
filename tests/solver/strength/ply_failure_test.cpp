// Failure of a ply: closed forms, and a published carbon ply (checks recomputed by hand).
#include "solver/strength/ply_failure.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/solver/strength/textbook_plies.hpp"

using namespace vrid;

namespace {

// Stresses of a ply at `degrees` to an x stress, y stress and shear of the board.
PlyStress turned(double degrees, double x, double y, double xy) {
    const double c = std::cos(degrees * std::numbers::pi / 180);
    const double s = std::sin(degrees * std::numbers::pi / 180);
    return {c * c * x + s * s * y + 2 * c * s * xy, s * s * x + c * c * y - 2 * c * s * xy,
            c * s * (y - x) + (c * c - s * s) * xy};
}

double hill(double degrees, double x, double y, double xy) {
    return failure_factor(tests::textbook_carbon_strength(), Criterion::tsai_hill,
                          PlyStress::Zero(), turned(degrees, x, y, xy));
}

} // namespace

TEST_CASE("off-axis tension and compression of a carbon ply meet Tsai and Hill's closed form") {
    // 1/s^2 = (c^4 - c^2 s^2)/X^2 + s^4/Y^2 + c^2 s^2/S^2, MPa; Kaw (2006), ply of table 2.1
    const double angle[] = {10, 30, 45, 60};
    const double tension[] = {370.17, 111.96, 68.955, 50.504};
    const double compression[] = {385.06, 154.77, 131.08, 141.72};
    const double by_stress[] = {397.64, 157.04, 80.00, 53.33};
    for (int i = 0; i < 4; ++i) {
        CAPTURE(angle[i]);
        CHECK(hill(angle[i], 1e6, 0, 0) == Approx(tension[i]).epsilon(5e-5));
        CHECK(hill(angle[i], -1e6, 0, 0) == Approx(compression[i]).epsilon(5e-5));
        CHECK(failure_factor(tests::textbook_carbon_strength(), Criterion::max_stress,
                             PlyStress::Zero(),
                             turned(angle[i], 1e6, 0, 0)) == Approx(by_stress[i]).epsilon(1e-4));
    }
}

TEST_CASE("the sign of a shear decides whether a 45 ply is squeezed or pulled across") {
    CHECK(hill(45, 0, 0, 1e6) == Approx(239.64).epsilon(5e-5));
    CHECK(hill(-45, 0, 0, 1e6) == Approx(39.972).epsilon(5e-5));
}

TEST_CASE("a ply under three stresses fails where the textbook says") {
    // Kaw (2006), example 2.17 to 2.19 (from memory, recomputed): 2 S, -3 S, 4 S on a 60 ply
    CHECK(failure_factor(tests::textbook_carbon_strength(), Criterion::max_stress,
                         PlyStress::Zero(),
                         turned(60, 2e6, -3e6, 4e6)) == Approx(16.326).epsilon(5e-5));
    CHECK(hill(60, 2e6, -3e6, 4e6) == Approx(16.061).epsilon(5e-5)); // with Yc for the sign of s2
}

TEST_CASE("the part along is told against the largest, by the strength of its own sign") {
    const PlyStrength strength{100, 50, 5, 20, 10, {}, {}};
    CHECK(along_part(strength, {60, 4, 1}) == Approx(0.6 / 0.8));
    CHECK(along_part(strength, {-30, 4, 1}) == Approx(-0.6 / 0.8));
    CHECK(along_part(strength, {60, -4, -7}) == Approx(0.6 / 0.7));
    CHECK(along_part(strength, {-60, 4, 7}) == -1);
}

TEST_CASE("with X = Y the index of an isotropic material is von Mises'") {
    PlyStrength steel{1100e6, 900e6, 0, 0, 0, {}, {}, true};
    const PlyStress stress(200e6, -50e6, 120e6);
    const double mises = std::sqrt(200. * 200 + 200. * 50 + 50. * 50 + 3 * 120. * 120);
    CHECK(failure_index(steel, Criterion::tsai_hill, stress) ==
          Approx(mises * mises / (1100. * 1100)));
    CHECK(failure_factor(steel, Criterion::tsai_hill, PlyStress::Zero(), -stress) ==
          Approx(900 / mises)); // compression on the whole
    CHECK(failure_factor(steel, Criterion::max_stress, PlyStress::Zero(), stress) ==
          Approx(1100 / mises));
}

TEST_CASE("the factor with residual stress is the least at which the index passes 1") {
    // held against a fine walk in L, for loads that turn the sign of each stress on the way
    const PlyStrength s{1062e6, 610e6, 31e6, 118e6, 72e6, {}, {}};
    const PlyStrength foam{2.3e6, 1.3e6, 0, 0, 0, {}, {}, true};
    int crossed = 0;
    for (int i = 0; i < 200; ++i) {
        const auto part = [&](double k, double size) { return size * std::sin(1 + k * i * i); };
        const PlyStress residual(part(1.3, 300e6), part(2.1, 28e6), part(0.7, 40e6));
        const PlyStress load(part(3.7, 300e6), part(1.9, 60e6), part(2.9, 50e6));
        for (const auto& [strength, scale] : {std::pair(s, 1.0), std::pair(foam, 4e-3)}) {
            for (const Criterion criterion : {Criterion::tsai_hill, Criterion::max_stress}) {
                const PlyStress r = scale * residual;
                const PlyStress l = scale * load;
                const double L = failure_factor(strength, criterion, r, l);
                if (failure_index(strength, criterion, r) >= 1) {
                    CHECK(L == 0);
                    continue;
                }
                REQUIRE(L > 0);
                if (std::isinf(L)) {
                    CHECK(failure_index(strength, criterion, r + 1e4 * l) < 1);
                    continue;
                }
                for (int k = 0; k < 400; ++k) {
                    REQUIRE(failure_index(strength, criterion, r + L * k / 400 * l) < 1);
                }
                CHECK(failure_index(strength, criterion, r + L * (1 + 1e-9) * l) > 1 - 1e-7);
                crossed += r(1) * (r(1) + L * l(1)) < 0 ? 1 : 0;
            }
        }
    }
    CHECK(crossed > 50); // the walk has been tried
}

TEST_CASE("without residual stress the factor is one over the root of the index") {
    const PlyStress load = turned(20, 3e6, -1e6, 2e6);
    const double index =
        failure_index(tests::textbook_carbon_strength(), Criterion::tsai_hill, load);
    CHECK(failure_factor(tests::textbook_carbon_strength(), Criterion::tsai_hill, PlyStress::Zero(),
                         load) == Approx(1 / std::sqrt(index)));
    CHECK(failure_factor(tests::textbook_carbon_strength(), Criterion::tsai_hill, 0.0 * load,
                         2 * load) == Approx(0.5 / std::sqrt(index)));
}
