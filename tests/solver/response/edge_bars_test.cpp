#include "solver/response/edge_bars.hpp"

#include <catch2/catch.hpp>

using vrid::NamedQuantity;

namespace {

std::vector<NamedQuantity> numbers(double peak, double nose, double tail, double length,
                                   double balance) {
    return {{"peak", {peak}},
            {"contact_length", {length}},
            {"share_nose", {nose}},
            {"share_tail", {tail}},
            {"balance", {balance}}};
}

} // namespace

TEST_CASE("a number of the edge that did not change by chance has the bar of those that did") {
    std::vector<NamedQuantity> fine = numbers(1000, 0.3, 0.2, 0.8, 1e-12);
    set_edge_bars(fine, numbers(1000, 0.31, 0.2, 0.8, 3e-12), 3);
    CHECK(fine[2].quantity.error >= 0.01);                                  // changed itself
    CHECK(fine[3].quantity.error == fine[2].quantity.error);                // a share as well
    CHECK(fine[0].quantity.error == Approx(1000 * fine[2].quantity.error)); // as part of it
    CHECK(fine[1].quantity.error == Approx(0.08 * fine[2].quantity.error)); // a tenth of that
    CHECK(fine[4].quantity.error == 0);                                     // no result
}

TEST_CASE(
    "radius, depth, place of the peak and roll moments of the edge, unchanged by chance, have "
    "bars, too") {
    std::vector<NamedQuantity> coarse = numbers(1000, 0.31, 0.2, 0.8, 0);
    coarse.insert(coarse.end(), {{"peak_x", {0.3}},
                                 {"effective_length", {0.6}},
                                 {"loss_nose", {0.0201}},
                                 {"max_depth", {0.002}},
                                 {"turn_radius", {6}},
                                 {"roll_moment_front", {50}},
                                 {"roll_moment_rear", {40.1}}});
    std::vector<NamedQuantity> fine = coarse;
    fine[2].quantity.value = 0.3;  // the nose's share
    fine[7].quantity.value = 0.02; // its loss
    fine[11].quantity.value = 40;  // one moment
    set_edge_bars(fine, coarse, 3);
    const auto bar = [&](std::size_t k) { return fine[k].quantity.error; };
    CHECK(bar(5) == Approx(0.8 * bar(2)));
    CHECK(bar(6) == Approx(0.8 * bar(2)));
    CHECK(bar(8) == Approx(0.002 * bar(0) / 1000));
    CHECK(bar(7) >= 0.0001);
    CHECK(bar(9) == Approx(6 * bar(7)));
    CHECK(bar(11) >= 0.1);
    CHECK(bar(10) == bar(11));
    coarse[0].quantity.value = 900;
    coarse[7].quantity.value = 0.02;
    set_edge_bars(fine, coarse, 3);
    CHECK(bar(0) >= 100);
    CHECK(bar(7) == Approx(0.5 * 0.02 * bar(0) / 1000)); // the load's part of the loss
}

TEST_CASE(
    "where two places of the edge are loaded alike by the peak's bar, the place of the peak is "
    "no better known than to be one of them") {
    vrid::EdgeCurve curve;
    curve.x = Eigen::VectorXd::LinSpaced(9, -0.4, 0.4);
    curve.ds = Eigen::VectorXd::Constant(9, 0.1);
    curve.q = Eigen::VectorXd::Zero(9);
    curve.q.segment(1, 3) << 500, 990, 500;
    curve.q.segment(5, 3) << 500, 1000, 500;
    const double force = 0.1 * 3990;
    const double squares = 0.1 * (4 * 500 * 500 + 990 * 990 + 1e6);
    const double effective = force * force / squares;
    const auto widened = [&](double bar) {
        std::vector<NamedQuantity> all{{"peak", {1000, bar}},
                                       {"peak_x", {0.2, 1e-3}},
                                       {"effective_length", {effective + 0.01, 1e-3}}};
        widen_by_curve(all, curve);
        return all;
    };
    CHECK(widened(9)[1].quantity.error == 1e-3);
    CHECK(widened(11)[1].quantity.error == Approx(0.4));
    // the same sum over other points differs by 0.01
    CHECK(widened(9)[2].quantity.error == Approx(1e-3 + 0.01));
}
