#include "planted_strip.hpp"

#include <cmath>
#include <random>
#include <vector>

#include "solver/design/controlled_spread.hpp"

namespace vrid::tests {

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
        std::vector<double> u;
        const Eigen::VectorXd across = across_two(Eigen::Vector3d(E, 3 * h, b) / linear().sd);
        for (int i = 0; i < count; ++i) {
            const double e = E * normal(random);
            const double thick = h * normal(random);
            const double wide = b * normal(random);
            t.push_back((e + 3 * thick + wide) / linear().sd);
            u.push_back(across(0) * e / E + across(1) * thick / h);
            y.push_back((1 + e) * std::pow(1 + thick, 3) * (1 + wide));
        }
        return controlled_spread(linear(), t, y, limits, u);
    }
};

} // namespace

StripCoverage planted_strip_coverage(int seeds, double wide) {
    PlainStrip strip;
    strip.b = wide;
    const double limit = 1 - strip.linear().sd;
    constexpr std::array student{2.093, 2.080,
                                 2.080}; // 95 % with 24 - 5, 24 - 3 degrees of freedom
    StripCoverage coverage;
    coverage.exact = {strip.mean(), strip.sd(), strip.share_above(limit)};
    coverage.linear_yield = normal_below(1);
    for (int seed = 1; seed <= seeds; ++seed) {
        const ControlledSpread found = strip.sampled(24, static_cast<unsigned>(seed), {limit, {}});
        const std::array<Estimate, 3> all{found.mean, found.sd, *found.yield};
        for (std::size_t k = 0; k < all.size(); ++k) {
            const double miss = all[k].value - coverage.exact[k];
            coverage.squares[k] += miss * miss / seeds;
            coverage.covered[k] += std::abs(miss) < student.at(k) * all[k].error ? 1 : 0;
        }
    }
    return coverage;
}

} // namespace vrid::tests
