#include "solver/lot/moved.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::MatrixXd;
using Eigen::Vector3d;
using Eigen::VectorXd;

namespace {

// Three numbers of deviation one, three values of deviation one: each number follows its own value,
// the third one a thousandth as much.
LotModel three_values() {
    LotModel model;
    model.mean = VectorXd::Zero(3);
    model.slopes = Vector3d(1, 1, 1e-3).asDiagonal();
    model.value_sd = model.rig_sd = VectorXd::Ones(3);
    model.bias_sd = VectorXd::Zero(3);
    model.group = {0, 1, 2};
    model.groups = 3;
    model.free = {0, 1, 2};
    return model;
}

// A centre known to a tenth.
LotCentre centre_at(const Vector3d& mean) {
    return {mean, 0.01 * MatrixXd::Identity(3, 3)};
}

} // namespace

TEST_CASE("a centre within its own error is as predicted, and no explanation is sought") {
    const LotMoved moved = lot_moved(three_values(), centre_at({0.1, -0.1, 0.05}));
    CHECK(moved.statistic == Approx(1 + 1 + 0.25));
    CHECK(moved.degrees == 3);
    CHECK(moved.p > as_predicted);
    CHECK_FALSE(moved.explained);
    CHECK(moved.explanations.empty());
}

TEST_CASE("a centre that one value moves has that value's shift as its explanation") {
    const LotMoved moved = lot_moved(three_values(), centre_at({0, 3, 0}));
    CHECK(moved.p < 1e-9);
    REQUIRE(moved.explained);
    REQUIRE(moved.explanations.size() == 1);
    REQUIRE(moved.explanations[0].shifts.size() == 1);
    const ValueShift shift = moved.explanations[0].shifts[0];
    CHECK(shift.value == 1);
    CHECK(shift.shift == Approx(3));
    CHECK(shift.sd == Approx(0.1));
    CHECK(moved.explanations[0].p == Approx(1));
}

TEST_CASE(
    "a value that would have to leave what it can be explains nothing, one that need not does") {
    LotModel model = three_values();
    model.slopes = MatrixXd::Ones(3, 3) - MatrixXd(Vector3d(0.9, 0.1, 0).asDiagonal());
    const LotCentre centre = centre_at(-3 * model.slopes.col(1));
    REQUIRE(lot_moved(model, centre).explained);
    CHECK(lot_moved(model, centre).explanations[0].shifts[0].value == 1);
    model.most = VectorXd::Constant(3, 100);
    model.least = VectorXd::Constant(3, -3.1);
    CHECK(lot_moved(model, centre).explanations[0].shifts[0].shift == Approx(-3));
    model.least(1) = -2.9; // a sheet of 2.9 mm is never 3 mm thinner
    const LotMoved moved = lot_moved(model, centre);
    for (const LotExplanation& one : moved.explanations) {
        for (const ValueShift& shift : one.shifts) {
            CHECK(shift.shift >= model.least(shift.value));
        }
    }
}

// A value that hardly moves a number would have to go as far as no value goes.
TEST_CASE("a shift of more than fifty deviations explains nothing, one of fewer does") {
    const LotMoved far = lot_moved(three_values(), centre_at({0, 0, 3})); // 3000 deviations
    CHECK(far.p < 1e-9);
    CHECK_FALSE(far.explained);
    for (const LotExplanation& nearest : far.explanations) {
        for (const ValueShift& shift : nearest.shifts) {
            CHECK(shift.value != 2);
        }
    }
    const LotMoved near = lot_moved(three_values(), centre_at({40, 0, 0}));
    REQUIRE(near.explained);
    CHECK(near.explanations[0].shifts[0].shift == Approx(40));
}

TEST_CASE("the rig's calibration widens a shift's error, and its own error is not the value's") {
    LotModel model = three_values();
    model.bias_sd(1) = 0.2;
    const LotMoved moved = lot_moved(model, centre_at({0, 3, 0}));
    REQUIRE(moved.explained);
    CHECK(moved.explanations[0].shifts[0].sd == Approx(std::sqrt(0.01 + 0.04)));
}
