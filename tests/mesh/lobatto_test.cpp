#include "mesh/lobatto.hpp"

#include <cmath>

#include <catch2/catch.hpp>

TEST_CASE("Lobatto points of degree 2, 3 and 4 are the known ones") {
    CHECK(vrid::lobatto_shares(2)[1] == Approx(0.5).epsilon(1e-15));
    CHECK(vrid::lobatto_shares(3)[1] == Approx((1 - std::sqrt(0.2)) / 2).epsilon(1e-14));
    CHECK(vrid::lobatto_shares(4)[1] == Approx((1 - std::sqrt(3.0 / 7)) / 2).epsilon(1e-14));
}

TEST_CASE("the derivative matrix is exact for polynomials of its degree") {
    for (int g = 1; g <= 6; ++g) {
        const auto& x = vrid::lobatto_shares(g);
        Eigen::VectorXd value(g + 1);
        for (int i = 0; i <= g; ++i) {
            value[i] = std::pow(x[static_cast<std::size_t>(i)], g);
        }
        const Eigen::VectorXd slope = vrid::lobatto_derivative(g) * value;
        for (int i = 0; i <= g; ++i) {
            CHECK(std::abs(slope[i] - g * std::pow(x[static_cast<std::size_t>(i)], g - 1)) < 1e-12);
        }
    }
}

TEST_CASE("n Lobatto points integrate powers up to 2 n - 3 exactly and no further") {
    for (int n = 2; n <= 7; ++n) {
        const vrid::Rule rule = vrid::lobatto(n);
        for (int power = 0; power <= 2 * n - 2; ++power) {
            CAPTURE(n, power);
            const double sum = rule.weight.dot(rule.point.array().pow(power).matrix());
            const double exact = power % 2 == 0 ? 2.0 / (power + 1) : 0;
            CHECK((std::abs(sum - exact) < 1e-13) == (power <= 2 * n - 3));
        }
    }
}
