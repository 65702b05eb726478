#include "solver/design/controlled_spread.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/planted_strip.hpp"

using namespace vrid;

TEST_CASE("twenty-four samples on a linear model know deviation and yield better than 2000 plain "
          "ones, and their standard errors cover") {
    const tests::StripCoverage found = tests::planted_strip_coverage(200);
    const auto [mean, sd, yield] = found.exact;
    REQUIRE(yield > found.linear_yield + 0.003); // the linear model alone is wrong by more
    CAPTURE(mean, found.covered[0], found.covered[1], found.covered[2]);
    // 95 % of 200 within three standard deviations of that count (9.2)
    for (const int count : found.covered) {
        CHECK(count >= 190 - 10);
        CHECK(count < 200);
    }
    CHECK(std::sqrt(found.squares[0]) < sd / std::sqrt(2000.0));
    CHECK(std::sqrt(found.squares[1]) < sd / std::sqrt(2 * 2000.0));
    CHECK(std::sqrt(found.squares[2]) < std::sqrt(yield * (1 - yield) / 2000));
}

TEST_CASE("where two values make the whole spread the mean is known far better, and its standard "
          "error covers") {
    const tests::StripCoverage found = tests::planted_strip_coverage(200, 0);
    CAPTURE(found.covered[0]);
    CHECK(found.covered[0] >= 190 - 10);
    // by the linear model's own t and its square alone 5e-4
    CHECK(std::sqrt(found.squares[0]) < 1e-4);
}

TEST_CASE("of the values that scatter a number the two largest draw across it, if they make half") {
    const Eigen::VectorXd across = across_two(Eigen::Vector4d(0.1, -0.8, 0.1, 0.582));
    REQUIRE(across.size() == 4);
    CHECK(across.norm() == Approx(1));
    CHECK(across.dot(Eigen::Vector4d(0.1, -0.8, 0.1, 0.582)) == Approx(0).margin(1e-15));
    CHECK(across(1) == Approx(0.582 / std::hypot(0.8, 0.582)));
    CHECK(across_two(Eigen::VectorXd::Constant(5, std::sqrt(0.2))).size() == 0);
    CHECK(across_two(Eigen::VectorXd::Ones(1)).size() == 0);
    CHECK(across_two(Eigen::VectorXd::Zero(3)).size() == 0);
}

TEST_CASE("a number that is a parabola of its linear model is known without error") {
    // y = 2 + 0.3 t + 0.05 t^2: mean 2.05, variance 0.3^2 + 2 0.05^2; below 2.4 between the roots
    // of 0.05 t^2 + 0.3 t = 0.4, -3 +- sqrt(17). Turned over, as many are above 1.6.
    const double root = std::sqrt(17.0);
    for (const double bend : {0.05, -0.05}) {
        std::vector<double> t;
        std::vector<double> y;
        for (int i = 0; i < 9; ++i) {
            t.push_back(-1.7 + 0.4 * i);
            y.push_back(2 + 0.3 * t.back() + bend * t.back() * t.back());
        }
        NumberLimits limits;
        (bend > 0 ? limits.max : limits.min) = bend > 0 ? 2.4 : 1.6;
        const ControlledSpread found = controlled_spread({2, 0.3}, t, y, limits);
        CHECK(found.mean.value == Approx(2 + bend));
        CHECK(found.sd.value == Approx(std::sqrt(0.09 + 2 * 0.0025)));
        CHECK(found.sd.error < 1e-12);
        CHECK(found.plain_samples == 0); // no bound
        CHECK(found.yield->value == Approx(normal_below(root - 3) - normal_below(-root - 3)));
        CHECK(found.p50 == Approx(2.0).epsilon(0.002)); // but for t beyond the vertex at +-3
    }
}

TEST_CASE("a number that does not follow a line is found by its samples alone") {
    // no derivative at the nominal board, as at the top of a hill
    std::vector<double> y{1, 2, 4, 3, 2, 1, 5, 2, 3, 7};
    const ControlledSpread found =
        controlled_spread({0, 0}, std::vector<double>(y.size(), 0), y, {{}, 4.5});
    CHECK(found.mean.value == Approx(3.0));
    CHECK(found.sd.value == Approx(std::sqrt(32.0 / 9)));        // sum of squares 32 over n - 1
    CHECK(found.mean.error == Approx(std::sqrt(32.0 / 9 / 10))); // jackknife of a mean: sd / sqrt n
    CHECK(found.yield->value > 0.7);
}
