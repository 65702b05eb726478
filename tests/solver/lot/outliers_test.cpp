#include "solver/lot/outliers.hpp"

#include <cmath>

#include <Eigen/LU>
#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::Vector2d;

namespace {

// Two numbers that see one value each way: y1 = a + b, y2 = a - 2 b; rig noise 0.1.
LotModel two_numbers() {
    LotModel model;
    model.mean = Vector2d(10, 20);
    model.slopes = (MatrixXd(2, 2) << 1, 1, 1, -2).finished();
    model.value_sd = Vector2d(1, 0.5);
    model.rig_sd = Vector2d(0.1, 0.1);
    model.bias_sd = Vector2d::Zero();
    model.group = {0, 1};
    model.groups = 2;
    model.free = {0, 1};
    return model;
}

LotReadings at_the_mean(Index boards) {
    LotReadings readings;
    readings.value = Vector2d(10, 20).replicate(1, boards);
    readings.count = Eigen::MatrixXi::Ones(2, boards);
    return readings;
}

std::vector<LotOutlier> outliers_of(const LotModel& model, const LotReadings& readings) {
    const LotCells cells = lot_cells(model, readings);
    return lot_outliers(model, cells, running_medians(model, cells), board_covariance(model));
}

} // namespace

TEST_CASE("a running median goes with a step within seven boards and takes no board along") {
    const LotModel model = two_numbers();
    LotReadings readings = at_the_mean(40);
    readings.value.rightCols(20).row(0).array() += 3; // from board 20 on
    readings.value(1, 5) += 50;                       // one board
    const LotCells cells = lot_cells(model, readings);
    const MatrixXd medians = running_medians(model, cells);
    for (Index i = 0; i < 40; ++i) {
        CAPTURE(i);
        // of the 15 around board i most are on one side, at the ends of those that are there
        CHECK(medians(0, i) == Approx(i < 20 ? 0 : 3).margin(1e-9));
        CHECK(medians(1, i) == Approx(0).margin(1e-9));
    }
    // what is missing counts as the board's other cells expect it: nothing moves
    for (const Index i : {3, 4, 30}) {
        readings.count(1, i) = 0;
        readings.value(1, i) = std::nan("");
    }
    const MatrixXd some = running_medians(model, lot_cells(model, readings));
    CHECK(some(0, 10) == Approx(0).margin(1e-6));
    CHECK(std::abs(some(0, 33) - 3) < 1e-6);
}

TEST_CASE("a wrong reading is told by its size, a wrong board by its value") {
    const LotModel model = two_numbers();
    LotReadings slip = at_the_mean(30);
    slip.value(1, 7) += 9;
    const auto one = outliers_of(model, slip);
    REQUIRE(one.size() == 1);
    CHECK(one[0].board == 7);
    CHECK(one[0].cells == 2);
    REQUIRE(one[0].reading);
    CHECK(*one[0].reading == 1);
    CHECK_FALSE(one[0].value);
    CHECK(one[0].by == Approx(9)); // the other number is where it should be: nothing expected
    // D^2 = d^T S^-1 d
    Eigen::Matrix2d S = board_covariance(model);
    S.diagonal().array() += 0.01;
    CHECK(one[0].distance == Approx(81 * S.inverse()(1, 1)));
    LotReadings board = at_the_mean(30);
    board.value.col(12) += 6 * Vector2d(1, -2); // b is off by 6
    board.value.col(3) -= 7 * Vector2d(1, 1);   // a by -7
    const auto both = outliers_of(model, board);
    REQUIRE(both.size() == 2);
    CHECK(both[0].board == 3); // by board
    REQUIRE(both[0].value);
    CHECK(*both[0].value == 0);
    CHECK(both[0].by == Approx(-7));
    REQUIRE(both[1].value);
    CHECK(*both[1].value == 1);
    CHECK(both[1].by == Approx(6));
}

TEST_CASE("a slip leaves a board that fits, and no value that says plainly more") {
    const LotModel model = two_numbers();
    const double limit = 12.9; // of one degree, tail 0.01 / 30 = 3.3e-4
    for (const double rest :
         {0.9 * limit, 1.1 * limit}) { // below and above, both below two degrees'
        LotReadings readings = at_the_mean(30);
        readings.value(0, 7) += std::sqrt(rest * 1.26); // 1 + 0.25 and the rig's 0.01
        readings.value(1, 7) += 20;
        const auto found = outliers_of(model, readings);
        REQUIRE(found.size() == 1);
        CHECK(found[0].reading.has_value() == (rest < limit));
    }
    // b off by 3: without the second number 9 / 1.26 = 7.1 are left, with b nothing
    LotReadings readings = at_the_mean(30);
    readings.value.col(7) += 3 * Vector2d(1, -2);
    const auto found = outliers_of(model, readings);
    REQUIRE(found.size() == 1);
    REQUIRE(found[0].value);
    CHECK(found[0].by == Approx(3));
}

TEST_CASE("a board is out beyond the chi-square whose tail is a hundredth of a board in the lot") {
    const LotModel model = two_numbers();
    const double limit = -2 * std::log(0.01 / 25); // of two degrees: exp(-x / 2)
    Eigen::Matrix2d S = board_covariance(model);
    S.diagonal().array() += 0.01;
    const double step = std::sqrt(limit / S.inverse()(0, 0));
    for (const double share : {0.999, 1.001}) {
        LotReadings readings = at_the_mean(25);
        readings.value(0, 20) += share * step;
        CHECK(outliers_of(model, readings).size() == (share > 1 ? 1 : 0));
    }
}

TEST_CASE("no value that cannot stand so far is named for a board that does not belong") {
    LotModel model = two_numbers();
    LotReadings readings = at_the_mean(30);
    readings.value.col(12) += 6 * Vector2d(1, -2); // b is off by 6, as in the case above
    model.least = Vector2d(-100, -100);
    model.most = Vector2d(100, 5); // a sheet of 5 mm at most, say
    const auto other = outliers_of(model, readings);
    REQUIRE(other.size() == 1);
    CHECK(other[0].value != 1);
    // a mass in grams: a off by 60 or b by 60 would do, sixty deviations and a hundred and twenty
    readings = at_the_mean(30);
    readings.value(0, 4) += 60;
    readings.count(1, 4) = 0;
    model.most = Vector2d(100, 100);
    const auto grams = outliers_of(model, readings);
    REQUIRE(grams.size() == 1);
    CHECK_FALSE(grams[0].value);
    CHECK_FALSE(grams[0].reading);
}
