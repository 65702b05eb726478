#include <cmath>

#include <catch2/catch.hpp>

#include "solver/element/quadrature.hpp"

using namespace vrid;

TEST_CASE("n Gauss points integrate powers up to 2 n - 1 exactly and no further") {
    for (int n = 1; n <= 9; ++n) {
        const Rule rule = gauss(n);
        REQUIRE(rule.point.size() == n);
        for (int power = 0; power <= 2 * n; ++power) {
            CAPTURE(n, power);
            const double sum = rule.weight.dot(rule.point.array().pow(power).matrix());
            const double exact = power % 2 == 0 ? 2.0 / (power + 1) : 0;
            // the first power missed is wrong by (n!)^4 2^(2n+1) / ((2n+1) (2n)!^2): 2e-5 for n = 9
            CHECK((std::abs(sum - exact) < 1e-13) == (power <= 2 * n - 1));
        }
    }
}

TEST_CASE("Lagrange polynomials and slopes are exact for the powers that their nodes carry") {
    const Eigen::VectorXd nodes = (Eigen::VectorXd(5) << -1, -0.4, 0.1, 0.55, 1).finished();
    const Eigen::VectorXd points = (Eigen::VectorXd(4) << -1, -0.83, 0.1, 0.97).finished();
    const Eigen::MatrixXd values = lagrange(nodes, points);
    const Eigen::MatrixXd slopes = lagrange_slope(nodes, points);
    for (int power = 0; power < 5; ++power) {
        const Eigen::VectorXd at_nodes = nodes.array().pow(power);
        for (Eigen::Index i = 0; i < points.size(); ++i) {
            CAPTURE(power, points(i));
            CHECK(values.row(i).dot(at_nodes) == Approx(std::pow(points(i), power)).margin(1e-13));
            const double slope = power == 0 ? 0 : power * std::pow(points(i), power - 1);
            CHECK(slopes.row(i).dot(at_nodes) == Approx(slope).margin(1e-12));
        }
    }
    // no power of five nodes' reach: the fifth is missed by the product of the distances to them
    const Eigen::VectorXd fifth = nodes.array().pow(5);
    const double missed = (points(1) - nodes.array()).prod();
    CHECK(std::pow(points(1), 5) - values.row(1).dot(fifth) == Approx(missed));
}
