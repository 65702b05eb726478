#include "solver/design/controlled_spread.hpp"

#include <array>
#include <cmath>
#include <random>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

// Bending stiffness of a strip, E h^3 b of independent normal values with mean 1: a product as
// crooked as a board's numbers are, and known without sampling.
struct PlainStrip {
    double E = 0.06, h = 0.03, b = 0.03; // deviations

    [[nodiscard]] LinearModel linear() const { return {1, std::sqrt(E * E + 9 * h * h + b * b)}; }
    // moments of a normal distribution: E[h^3] = 1 + 3 s^2, E[h^6] = 1 + 15 s^2 + 45 s^4 + 15 s^6
    [[nodiscard]] double mean() const { return 1 + 3 * h * h; }
    [[nodiscard]] double sd() const {
        const double s = h * h;
        const double square =
            (1 + E * E) * (1 + b * b) * (1 + 15 * s + 45 * s * s + 15 * s * s * s);
        return std::sqrt(square - mean() * mean());
    }
    // over h and b by the trapezoidal rule, over E as the normal distribution has it
    [[nodiscard]] double share_above(double limit) const {
        constexpr int steps = 120;
        constexpr double far = 7;
        constexpr double step = 2 * far / steps;
        double share = 0;
        double weights = 0;
        for (int i = 0; i <= steps; ++i) {
            for (int j = 0; j <= steps; ++j) {
                const double x = -far + i * step;
                const double y = -far + j * step;
                const double weight = std::exp(-(x * x + y * y) / 2);
                const double rest = std::pow(1 + h * x, 3) * (1 + b * y);
                share += weight * normal_below((1 - limit / rest) / E);
                weights += weight;
            }
        }
        return share / weights;
    }
    [[nodiscard]] ControlledSpread sampled(int count, unsigned seed,
                                           const NumberLimits& limits) const {
        std::mt19937_64 random(seed);
        std::normal_distribution<double> normal;
        std::vector<double> t;
        std::vector<double> y;
        for (int i = 0; i < count; ++i) {
            const double e = E * normal(random);
            const double thick = h * normal(random);
            const double wide = b * normal(random);
            t.push_back((e + 3 * thick + wide) / linear().sd);
            y.push_back((1 + e) * std::pow(1 + thick, 3) * (1 + wide));
        }
        return controlled_spread(linear(), t, y, limits);
    }
};

} // namespace

TEST_CASE("twenty-four samples on a linear model know deviation and yield better than 2000 plain "
          "ones, and their standard errors cover") {
    const PlainStrip strip;
    const double limit = 1 - strip.linear().sd;
    const double yield = strip.share_above(limit);
    REQUIRE(yield > normal_below(1) + 0.003); // the linear model alone is wrong by more
    constexpr int seeds = 200;
    constexpr double student = 2.080; // 95 % with 24 - 3 degrees of freedom
    std::array<double, 3> squares{};
    std::array<int, 3> covered{};
    for (unsigned seed = 1; seed <= seeds; ++seed) {
        const ControlledSpread found = strip.sampled(24, seed, {limit, {}});
        const std::array<Estimate, 3> all{found.mean, found.sd, *found.yield};
        const std::array<double, 3> exact{strip.mean(), strip.sd(), yield};
        for (std::size_t k = 0; k < all.size(); ++k) {
            const double miss = all[k].value - exact[k];
            squares[k] += miss * miss / seeds;
            covered[k] += std::abs(miss) < student * all[k].error ? 1 : 0;
        }
    }
    CAPTURE(covered[0], covered[1], covered[2]);
    // 95 % of 200 within three standard deviations of that count (9.2)
    for (const int count : covered) {
        CHECK(count >= 190 - 10);
        CHECK(count < 200);
    }
    CHECK(std::sqrt(squares[0]) < strip.sd() / std::sqrt(2000.0));
    CHECK(std::sqrt(squares[1]) < strip.sd() / std::sqrt(2 * 2000.0));
    CHECK(std::sqrt(squares[2]) < std::sqrt(yield * (1 - yield) / 2000));
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
