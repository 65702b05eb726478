#include "solver/design/best_values.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::MatrixXd;
using Eigen::Vector2d;

namespace {

// Two values with workshop steps 1 and 2, one number that is 3 a + b, from a = b = 0.
MatchProblem sum_of_two() {
    MatchProblem problem;
    problem.values.resize(2);
    problem.values[1].step = 2;
    problem.numbers.resize(1);
    problem.measures = {{false, 100}}; // of itself
    problem.windows = {{0, 1, HUGE_VAL}};
    return problem;
}

LocalModel sum_model(double low) {
    LocalModel model;
    model.centre = Vector2d::Zero();
    model.measures = Eigen::VectorXd::Zero(1);
    model.slopes = (MatrixXd(1, 2) << 3, 1).finished();
    model.curvature = MatrixXd::Zero(1, 2);
    model.low = Eigen::VectorXd::Constant(1, low);
    model.high = Eigen::VectorXd::Constant(1, HUGE_VAL);
    return model;
}

const ValueBox wide_box{Vector2d(-10, -10), Vector2d(10, 10)};

} // namespace

// Lagrange: the least sum of (v / step)^2 with a . v = c is at v = c a step^2 / sum a^2 step^2.
TEST_CASE("a target is met by the least change, each value by its slope and its step squared") {
    const MatchProblem problem = sum_of_two();
    const LocalModel model = sum_model(1);
    const BestValues best = best_values(problem, model, wide_box, {Vector2d::Zero()});
    CHECK(best.miss == Approx(0).margin(1e-6));
    CHECK(best.values(0) == Approx(3.0 / 13).epsilon(1e-4)); // 9 * 1 + 1 * 4
    CHECK(best.values(1) == Approx(4.0 / 13).epsilon(1e-4));
    CHECK(best.objective == Approx(9.0 / 169 + 4.0 / 169).epsilon(1e-4));
    // up to the box: the other value has the rest
    const BestValues held =
        best_values(problem, model, {Vector2d(-10, -10), Vector2d(0.1, 10)}, {Vector2d::Zero()});
    CHECK(held.values(0) == Approx(0.1).epsilon(1e-6));
    CHECK(held.values(1) == Approx(0.7).epsilon(1e-4));
    // what cannot be met is missed by as little as can be
    const BestValues off =
        best_values(problem, sum_model(50), wide_box, {Vector2d::Zero(), Vector2d(1, 1)});
    CHECK(off.miss == Approx(10));
    CHECK(off.values(0) == Approx(10));
    CHECK(off.values(1) == Approx(10));
    // nothing to do
    CHECK(best_values(problem, sum_model(-1), wide_box, {Vector2d(0, 0)}).values.norm() < 1e-6);
}

TEST_CASE("neighbouring stations keep their slope, the nearest pair by steps where they do not") {
    MatchProblem problem = sum_of_two();
    SlopeLimit limit;
    limit.left = 0;
    limit.right = 1;
    limit.x_right = 0.5;
    limit.max = 2; // b - a between -1 and 1
    problem.slopes = {limit};
    const WithinSlopes kept = within_slopes(problem, Vector2d(0.2, 1), wide_box);
    CHECK(kept.broken == Approx(0).margin(1e-9));
    CHECK((kept.values - Vector2d(0.2, 1)).norm() < 1e-6);
    // 3 apart: two too much, shared by steps squared, 1 to 4
    const WithinSlopes drawn = within_slopes(problem, Vector2d(0, 3), wide_box);
    CHECK(drawn.broken == Approx(0).margin(1e-6));
    CHECK(drawn.values(0) == Approx(0.4).epsilon(1e-3));
    CHECK(drawn.values(1) == Approx(2.6 - 1.2).epsilon(1e-3));
    const WithinSlopes falling = within_slopes(problem, Vector2d(3, 0), wide_box);
    CHECK(falling.values(0) == Approx(2.6).epsilon(1e-3));
    CHECK(falling.values(1) == Approx(1.6).epsilon(1e-3));
    const WithinSlopes broken =
        within_slopes(problem, Vector2d(0, 3), {Vector2d(-1, 2), Vector2d(0, 4)});
    CHECK(broken.broken == Approx(2).epsilon(1e-6)); // 2 over 0.5 is 4, 2 above the limit
    // with a target that pulls them apart
    const BestValues best = best_values(problem, sum_model(8), wide_box, {Vector2d::Zero()});
    CHECK(best.miss == Approx(0).margin(1e-6));
    CHECK(std::abs(best.values(1) - best.values(0)) < 1 + 1e-6);
}
