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
    CHECK(fine[1].quantity.error == Approx(0.8 * fine[2].quantity.error));  // as part of it
    CHECK(fine[4].quantity.error == 0);                                     // no result
}
