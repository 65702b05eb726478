// Derivatives of edge numbers by values that move lines, against full solves of changed boards on
// meshes that move with them.
#include "solver/design/edge_shape.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/write/design_path.hpp"
#include "io/write/number_name.hpp"
#include "solver/design/moved_mesh.hpp"
#include "solver/mesh_request.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

std::vector<NumberId> edge_requests() {
    std::vector<NumberId> all;
    for (const char* name :
         {"peak", "peak_x", "contact_tail", "contact_nose", "contact_length", "effective_length",
          "share_nose", "share_middle", "loss_nose", "loss_nose_twist", "loss_tail", "loss_mean",
          "max_depth", "turn_radius", "roll_moment_front", "roll_moment_rear"}) {
        all.push_back(edge_request(name));
    }
    return all;
}

Eigen::VectorXd values_of(const BoardNumbers& found) {
    Eigen::VectorXd values(static_cast<Eigen::Index>(found.numbers.size()));
    for (std::size_t k = 0; k < found.numbers.size(); ++k) {
        values(static_cast<Eigen::Index>(k)) = found.numbers[k].quantity.value;
    }
    return values;
}

} // namespace

// Steps on a rest shape as in shape_slopes_test.
TEST_CASE("shape derivatives of edge numbers are those of full solves on moved meshes, to 1e-4 of "
          "what a number is a length") {
    using Paths = std::vector<std::string>;
    // some values of every kind; all of them once by hand
    const auto [flat, side, share, paths] = GENERATE(table<bool, Side, double, Paths>(
        {{true, Side::left, 0.5,
          Paths{"planform.running_length_mm", "planform.nose_width_mm", "stance.setback_mm",
                "stance.foot_length_mm", "core.station_mm[11]"}},
         {true, Side::right, 0.62,
          Paths{"planform.waist_width_mm", "stance.width_mm", "stance.foot_width_mm",
                "edge.width_mm", "rest_shape.station_mm[1]"}},
         {false, Side::right, 0.62,
          Paths{"planform.waist_width_mm", "stance.setback_mm", "stance.foot_length_mm",
                "rest_shape.station_mm[1]"}}}));
    Board board = example("nh-157-biax");
    for (Strip& strip : board.core->strips) { // wide ones, whose mix goes with the outline
        strip.width *= side == Side::right ? 3 : 1;
    }
    const std::vector<NumberId> requests = edge_requests();
    NumbersOptions options;
    options.degree = 2; // derivatives are those of the discrete board
    options.max_size = 0.08;
    options.flat = flat;
    options.slopes = false;
    options.edge = {side, 0.785, 800, 5e9, share, SnowLaw::volume}; // 45 degrees, packed snow
    const BoardNumbers plain = board_numbers(board, requests, options);
    NumbersOptions exact = options;
    exact.slopes = true;
    exact.edge_prepared = plain.edge_prepared;
    for (const DesignId& id : ids_of(board, paths)) {
        exact.lines.push_back({id, {}});
        REQUIRE_FALSE(has_kink(board, exact.lines.back(), edge_stations));
    }
    const BoardNumbers found = board_numbers(board, requests, exact);
    const MeshMover mover(plain.edge_prepared, board, edge_stations);
    for (const LineValue& line : exact.lines) {
        const auto column =
            std::find(found.values.begin(), found.values.end(), line.id) - found.values.begin();
        const auto difference = [&](double h) {
            const ShapeChange change = shape_change(board, line, h);
            NumbersOptions moved = options;
            moved.edge_prepared = mover.moved(change, change.low);
            const auto low = values_of(board_numbers(*change.below, requests, moved));
            moved.edge_prepared = mover.moved(change, change.low + change.width);
            const auto high = values_of(board_numbers(*change.above, requests, moved));
            return Eigen::VectorXd((high - low) / change.width);
        };
        const double h = flat ? 4e-5 : 1.5e-5;
        const Eigen::VectorXd two = (4 * difference(h) - difference(2 * h)) / 3;
        for (std::size_t k = 0; k < requests.size(); ++k) {
            const double slope = found.numbers[k].slope(column);
            const double value = std::abs(found.numbers[k].quantity.value);
            INFO(path_of(line.id) << " " << number_name(requests[k]) << ": " << slope << ", "
                                  << two(static_cast<Eigen::Index>(k)));
            constexpr double length = 0.3; // m
            CHECK(std::abs(slope - two(static_cast<Eigen::Index>(k))) <=
                  1e-4 * std::max(std::abs(slope), value / length));
        }
    }
}
