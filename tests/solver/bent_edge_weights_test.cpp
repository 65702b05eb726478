// Derivatives of the numbers of a board bent on its edge, against whole solves of changed boards.
#include "solver/bent_edge_weights.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "io/write/number_name.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

std::vector<NumberId> all_numbers() {
    std::vector<NumberId> all;
    for (const std::string& name : edge_number_names()) {
        all.push_back(edge_request(name));
    }
    return all;
}

Eigen::VectorXd values_with(const Board& board, const DesignValue& value, double by,
                            const std::vector<NumberId>& requests, const NumbersOptions& options) {
    Eigen::VectorXd moved(1);
    moved(0) = value.value + by;
    const BoardNumbers found =
        board_numbers(with_values(board, {{value.id}, moved}, library()), requests, options);
    Eigen::VectorXd all(static_cast<Eigen::Index>(found.numbers.size()));
    for (Eigen::Index k = 0; k < all.size(); ++k) {
        all(k) = found.numbers[static_cast<std::size_t>(k)].quantity.value;
    }
    return all;
}

} // namespace

TEST_CASE("derivatives of the numbers of a board bent on its edge are those of whole solves, the "
          "points in contact held") {
    const Side side = GENERATE(Side::left, Side::right);
    const Board board = shaken(example("nh-157-querwind"), 7);
    const std::vector<NumberId> requests = all_numbers();
    NumbersOptions options;
    options.degree = 1; // derivatives are those of the discrete board: any degree will do
    options.max_size = 0.15;
    options.edge = {side, 1.0, 1500, 2e8, 0.6, SnowLaw::volume, true};
    const BoardNumbers exact = board_numbers(board, requests, options);
    options.edge_prepared = exact.edge_prepared;
    options.slopes = false;
    const std::vector<DesignValue> values = design_board(board).values;
    for (const char* const path :
         {"core.thickness_mm[4]", "layer.upper glass.angle_deg", "material.e-glass.E_GPa"}) {
        const auto at = std::find_if(values.begin(), values.end(),
                                     [&](const DesignValue& v) { return path_of(v.id) == path; });
        REQUIRE(at != values.end());
        const double size = at->value == 0 ? 1 : std::abs(at->value);
        const double h = 1e-4 * size;
        const auto step = [&](double by) -> Eigen::VectorXd {
            return (values_with(board, *at, by, requests, options) -
                    values_with(board, *at, -by, requests, options)) /
                   (2 * by);
        };
        const Eigen::VectorXd found = (4 * step(h) - step(2 * h)) / 3;
        for (std::size_t k = 0; k < requests.size(); ++k) {
            const double slope = exact.numbers[k].slope(at - values.begin());
            const double floor = 0.1 * std::abs(exact.numbers[k].quantity.value) / size;
            const double off = std::abs(slope - found(static_cast<Eigen::Index>(k)));
            INFO(path << " " << number_name(requests[k]) << " " << slope);
            CHECK(off <= 1e-6 * std::max(std::abs(slope), floor));
        }
    }
}
