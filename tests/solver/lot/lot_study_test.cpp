#include "solver/lot/lot_study.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include "../../lot_example.hpp"
#include "../../planted_lots.hpp"
#include "small_model.hpp"
#include "solver/lot/change_scan.hpp"
#include "solver/lot/plan.hpp"
#include "tests/places.hpp"

using namespace vrid;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// The whole lot as one long vector: covariance, design matrix of the centre, readings.
struct Dense {
    MatrixXd S, H;
    VectorXd y;
};

Dense dense_lot(const LotModel& model, const LotReadings& readings, const MatrixXd& V) {
    const Index k = model.mean.size();
    std::vector<std::pair<Index, Index>> cells; // board, number
    for (Index i = 0; i < readings.value.cols(); ++i) {
        for (Index r = 0; r < k; ++r) {
            if (readings.count(r, i) > 0) {
                cells.emplace_back(i, r);
            }
        }
    }
    const auto count = static_cast<Index>(cells.size());
    Dense dense{MatrixXd::Zero(count, count), MatrixXd::Zero(count, k), VectorXd(count)};
    for (Index a = 0; a < count; ++a) {
        const auto [board, number] = cells[static_cast<std::size_t>(a)];
        dense.H(a, number) = 1;
        dense.y(a) = readings.value(number, board) - model.mean(number);
        for (Index b = 0; b < count; ++b) {
            const auto [other, second] = cells[static_cast<std::size_t>(b)];
            if (other == board) {
                dense.S(a, b) = V(number, second);
            }
        }
        dense.S(a, a) +=
            model.rig_sd(number) * model.rig_sd(number) / readings.count(number, board);
    }
    return dense;
}

LotOptions options_for(const LotModel& model) {
    LotOptions options;
    options.limits.resize(static_cast<std::size_t>(model.mean.size()));
    return options;
}

LotReadings with_repeats(LotReadings readings) {
    readings.count(1, 3) = 3;
    readings.count(0, 5) = 2;
    return readings;
}

} // namespace

TEST_CASE("centre and likelihood of a lot with missing cells and repeats are the dense ones") {
    const LotModel model = small_model(4);
    const LotReadings readings = with_repeats(planted_lot(model, {15, 0.2, {}, 0, 1}, 8));
    const MatrixXd V = with_factor(model, 2, 1.7);
    const Dense dense = dense_lot(model, readings, V);
    const MatrixXd W = dense.S.inverse();
    const MatrixXd A = dense.H.transpose() * W * dense.H;
    const VectorXd mean = A.inverse() * dense.H.transpose() * W * dense.y;
    const VectorXd rest = dense.y - dense.H * mean;
    const double deviance =
        std::log(dense.S.determinant()) + std::log(A.determinant()) + rest.dot(W * rest);
    const LotCells cells = lot_cells(model, readings);
    const LotCentre centre = lot_centre(cells, lot_weights(cells, V));
    CHECK((centre.mean - mean).norm() < 1e-9 * mean.norm());
    CHECK((centre.covariance - A.inverse()).norm() < 1e-9 * A.inverse().norm());
    CHECK(restricted_deviance(cells, pattern_sums(cells), V) == Approx(deviance));
}

TEST_CASE("gains of a change are what the formula says, for every first board and shape") {
    const LotModel model = small_model(3);
    VectorXd q(9);
    VectorXd u(9);
    q << 1, 2, 0.5, 1, 3, 1, 0, 2, 1;
    u << 0.3, -1, 0.2, 2, 1, 0.1, 0, 1.5, 3;
    const ChangeScan scan(q);
    double largest = 0;
    for (const ChangeShape shape : {ChangeShape::step, ChangeShape::ramp}) {
        const VectorXd gains = scan.gains(u, shape);
        for (Index c = 1; c < 9; ++c) {
            VectorXd f = VectorXd::Zero(9);
            for (Index i = c; i < 9; ++i) {
                f(i) = shape == ChangeShape::step ? 1 : static_cast<double>(i - c + 1);
            }
            f.array() -= f.dot(q) / q.sum();
            const double G = f.dot(u) / std::sqrt(f.cwiseAbs2().dot(q));
            CAPTURE(c, static_cast<int>(shape));
            CHECK(gains(c) == Approx(G * G));
            largest = std::max(largest, G * G);
        }
    }
    CHECK(scan.largest(u) == Approx(largest));
}

TEST_CASE("a planted drift is found, about where it begins, and what follows is before it") {
    const LotModel model = small_model(6);
    LotReadings readings = planted_lot(model, {80, 0.05, {}, 0, 1}, 21);
    for (Index i = 45; i < 80; ++i) { // three deviations in the end
        readings.value.col(i) +=
            model.slopes.col(4) * (model.value_sd(4) * 4 * static_cast<double>(i - 44) / 35);
    }
    const LotFindings found = study_lot(model, readings, options_for(model));
    REQUIRE(found.changed);
    CHECK(found.change.p < 0.002);
    CHECK(found.change.value == 4);
    CHECK(found.change.shape == ChangeShape::ramp);
    CHECK(found.change.ramp.from <= 45);
    CHECK(found.change.ramp.to >= 45);
    CHECK(found.about == LotBoards::before_change);
    CHECK(static_cast<Index>(found.used.size()) <=
          std::min(found.change.step.first, found.change.ramp.first));
    CHECK(found.outliers.empty());
    CHECK(found.moved.p > 0.01); // nothing had moved before
}

TEST_CASE("a wrong reading and a wrong board are told apart from each other and from the rest") {
    const LotModel model = small_model(6);
    LotReadings readings = planted_lot(model, {60, 0, {}, 0, 1}, 5);
    readings.value(2, 10) += 25;                                           // a slip of the rig
    readings.value.col(30) += model.slopes.col(9) * 9 * model.value_sd(9); // wrong cloth
    const LotFindings found = study_lot(model, readings, options_for(model));
    REQUIRE(found.outliers.size() == 2);
    CHECK(found.outliers[0].board == 10);
    REQUIRE(found.outliers[0].reading);
    CHECK(*found.outliers[0].reading == 2);
    CHECK(found.outliers[0].by == Approx(25).margin(8));
    CHECK(found.outliers[1].board == 30);
    REQUIRE(found.outliers[1].value);
    CHECK(*found.outliers[1].value == 9);
    CHECK(found.outliers[1].by == Approx(9 * model.value_sd(9)).margin(3.6 * model.value_sd(9)));
    CHECK_FALSE(found.changed);
    CHECK_FALSE(found.wide);
}

TEST_CASE("a lot of one wide group is called wide, not full of outliers and drift") {
    const LotModel model = small_model(6);
    const LotReadings readings = planted_lot(model, {100, 0.05, {}, 3, 6}, 12);
    const LotFindings found = study_lot(model, readings, options_for(model));
    REQUIRE(found.wide);
    CHECK(found.wide->group == 3);
    CHECK(found.outliers.empty());
    CHECK_FALSE(found.changed);
    CHECK(found.factors.front().group == 3);
    CHECK(found.factors.front().low > 1.5);
    CHECK(found.factors.front().holm < 0.001);
    const LotCells cells = lot_cells(model, readings);
    const std::vector<JointFactor> joint = joint_factors(model, cells, {3});
    CHECK(joint.front().factor == Approx(found.factors.front().factor).epsilon(0.02));
}

TEST_CASE("a planted shift of two values is the shortest explanation of the mean") {
    const LotModel model = small_model(6);
    PlantedLot lot{60, 0.05, VectorXd::Zero(12), 0, 1};
    lot.shift(2) = 2 * model.value_sd(2);
    lot.shift(9) = -2 * model.value_sd(9);
    const LotFindings found = study_lot(model, planted_lot(model, lot, 31), options_for(model));
    CHECK(found.moved.p < 1e-6);
    REQUIRE(found.moved.explained);
    bool planted = false;
    for (const LotExplanation& one : found.moved.explanations) {
        REQUIRE(one.shifts.size() <= 2);
        planted = planted ||
                  (one.shifts.size() == 2 && one.shifts[0].value == 2 && one.shifts[1].value == 9);
    }
    CHECK(planted);
}

TEST_CASE("values held by their deviations are those of the normal equations") {
    LotModel model = small_model(5);
    model.bias_sd(1) = 0.7;
    const LotReadings readings = planted_lot(model, {30, 0.1, {}, 0, 1}, 9);
    const LotCells cells = lot_cells(model, readings);
    const LotCentre centre = lot_centre(cells, lot_weights(cells, board_covariance(model)));
    MatrixXd C = centre.covariance;
    C(1, 1) += 0.49;
    const MatrixXd W = C.inverse();
    MatrixXd information = model.slopes.transpose() * W * model.slopes;
    information.diagonal() += model.value_sd.cwiseAbs2().cwiseInverse();
    const MatrixXd P = information.inverse();
    const VectorXd shift = P * model.slopes.transpose() * W * centre.mean;
    for (const ValueShift& one : lot_moved(model, centre).held) {
        CHECK(one.shift == Approx(shift(one.value)));
        CHECK(one.sd == Approx(std::sqrt(P(one.value, one.value))));
    }
}

TEST_CASE("boards needed and the worth of a further reading are those of the dense formulas") {
    LotModel model = small_model(5);
    MatrixXd S = board_covariance(model);
    S.diagonal() += model.rig_sd.cwiseAbs2();
    const BoardsNeeded first = boards_needed(model).front();
    const double factor = readings_needed(1, 0.025, 0.1);
    const VectorXd column = model.slopes.col(0) * model.value_sd(0);
    CHECK(first.alone == std::ceil(factor / column.dot(S.inverse() * column)));
    const auto variance = [&](double n) { // of value 0 in its deviations, no prior on it
        MatrixXd information = n * model.slopes.transpose() * S.inverse() * model.slopes;
        for (Index j = 1; j < 12; ++j) {
            information(j, j) += 1 / (model.value_sd(j) * model.value_sd(j));
        }
        return information.inverse()(0, 0) / (model.value_sd(0) * model.value_sd(0));
    };
    if (first.all) {
        CHECK(factor * variance(*first.all) <= 1);
        CHECK(factor * variance(*first.all - 1) > 1);
    } else {
        CHECK(factor * variance(1e6) > 1);
    }
    const Candidates candidates{MatrixXd::Identity(12, 12), VectorXd::Constant(12, 0.1)};
    const auto next = next_readings(model, candidates, {40, {}, std::pair<Index, Index>{0, 3}});
    const NextReadings& best = next.at(1);
    MatrixXd slopes(5 + best.readings.size(), 12);
    slopes.topRows(5) = model.slopes;
    VectorXd noise(slopes.rows());
    noise.head(5) = model.rig_sd;
    for (std::size_t i = 0; i < best.readings.size(); ++i) {
        slopes.row(5 + static_cast<Index>(i)) = candidates.slopes.row(best.readings[i]);
        noise(5 + static_cast<Index>(i)) = 0.1;
    }
    MatrixXd more = slopes * model.value_sd.cwiseAbs2().asDiagonal() * slopes.transpose();
    more.diagonal() += noise.cwiseAbs2();
    const MatrixXd scaled = slopes * model.value_sd.asDiagonal();
    const MatrixXd P =
        (40 * scaled.transpose() * more.inverse() * scaled + MatrixXd::Identity(12, 12)).inverse();
    CHECK(best.A == Approx(P.trace()));
    CHECK(best.D + next.front().D ==
          Approx(std::log(1 / P.determinant()) -
                 std::log((40 * (model.slopes * model.value_sd.asDiagonal()).transpose() *
                               S.inverse() * model.slopes * model.value_sd.asDiagonal() +
                           MatrixXd::Identity(12, 12))
                              .determinant())));
    const auto some = next_readings(model, candidates, {40, {0, 1, 2}, {}});
    CHECK(some.front().A < next.front().A); // three shifts instead of twelve
    const NextReadings again = *std::find_if(
        some.begin(), some.end(), [](const NextReadings& one) { return !one.readings.empty(); });
    CHECK(again.readings.size() == 2);
    CHECK(again.readings.back() <= 2); // two of the three themselves
    REQUIRE(best.rivals);
    CHECK(*best.rivals < *next.front().rivals);
}

TEST_CASE("groups of a text column that differ are seen, and those that do not are not") {
    const LotModel model = small_model(5);
    LotReadings readings = planted_lot(model, {60, 0.1, {}, 0, 1}, 14);
    std::vector<int> press;
    for (Index i = 0; i < 60; ++i) {
        press.push_back(static_cast<int>(i % 3));
    }
    const MatrixXd V = board_covariance(model);
    const ColumnTest same = column_test(lot_cells(model, readings), V, press);
    CHECK(same.degrees == 10); // two groups beyond the first, five numbers
    CHECK(same.p > 0.01);
    for (Index i = 0; i < 60; i += 3) {
        readings.value.col(i) += model.slopes.col(1) * 4 * model.value_sd(1);
    }
    CHECK(column_test(lot_cells(model, readings), V, press).p < 1e-4);
}

TEST_CASE("what a lot says holds the truth as often as it claims") {
    // 200 of the 800 lots of benchmarks/planted_lots; bounds four deviations of 200 trials wide
    // about 95 % and 5 %, so that a wrong formula fails and chance does not.
    const LotModel model = lot_example(source_dir);
    const std::size_t group = strongest_group(model);
    const PlantedShares found = planted_shares(model, group, first_value_of(model, group), 200, 2);
    CHECK(found.one_shift == Approx(0.95).margin(0.062));
    CHECK(found.all_shifts == Approx(0.95).margin(0.03));
    CHECK(found.factor_one == Approx(0.95).margin(0.062));
    CHECK(found.factor_four == Approx(0.95).margin(0.062));
    CHECK(found.outside == Approx(0.95).margin(0.062));
    CHECK(found.spread_small < 0.115);
    CHECK(found.change_small < 0.115);
    CHECK(found.change_small > 0); // one in twenty; none in 200 has a chance of 1 in 30000
    CHECK(found.false_outlier < 0.05);
}
