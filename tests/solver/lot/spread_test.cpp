#include "solver/lot/spread.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "../../planted_lots.hpp"
#include "small_model.hpp"
#include "solver/lot/tails.hpp"

using namespace vrid;
using Eigen::Index;
using Eigen::MatrixXd;

TEST_CASE("the spread of one number is compared as a chi-square of one ratio") {
    LotModel model = small_model(1);
    const LotReadings readings = planted_lot(model, {30, 0, {}, 0, 1}, 3);
    const LotCells cells = lot_cells(model, readings);
    const auto spread = lot_spread(model, cells);
    REQUIRE(spread);
    const Eigen::ArrayXd y = readings.value.row(0).transpose().array();
    const double a = (y - y.mean()).square().sum() / 29 /
                     (board_covariance(model)(0, 0) + model.rig_sd(0) * model.rig_sd(0));
    // nu (a - ln a - 1) with Bartlett's 1 - 1 / (3 nu)
    CHECK(spread->statistic == Approx(29 * (a - std::log(a) - 1) * (1 - 1.0 / 87)));
    CHECK(spread->degrees == 1);
    const NumberSpread one = number_spreads(model, cells).front();
    CHECK(one.ratio == Approx(a));
    CHECK(one.low == Approx(29 * a / chi2_quantile(0.975, 29)));
}

TEST_CASE("the spread of a lot does not depend on the units of its numbers") {
    LotModel model = small_model(4);
    LotReadings readings = planted_lot(model, {30, 0.02, {}, 0, 1}, 4);
    const double before = lot_spread(model, lot_cells(model, readings))->statistic;
    const Eigen::Vector4d unit(1e-6, 1e3, 1, 1e7);
    model.mean = unit.asDiagonal() * model.mean;
    model.slopes = unit.asDiagonal() * model.slopes;
    model.rig_sd = unit.asDiagonal() * model.rig_sd;
    readings.value = unit.asDiagonal() * readings.value;
    CHECK(lot_spread(model, lot_cells(model, readings))->statistic == Approx(before));
}

TEST_CASE("with fewer than three complete boards a number the spread is left out") {
    const LotModel model = small_model(4);
    CHECK_FALSE(lot_spread(model, lot_cells(model, planted_lot(model, {11, 0, {}, 0, 1}, 5))));
    CHECK(lot_spread(model, lot_cells(model, planted_lot(model, {12, 0, {}, 0, 1}, 5))));
}

TEST_CASE("p-values of several tests together are Holm's") {
    // three tests: 3 p, 2 p, p of the sorted ones, never falling
    const std::vector<double> together = holm({0.04, 0.01, 0.03});
    CHECK(together[1] == Approx(0.03));
    CHECK(together[2] == Approx(0.06));
    CHECK(together[0] == Approx(0.06));
}
