// Derivatives of the shape out of the press by values that move lines.
#include "solver/design/cooled_slopes.hpp"

#include <algorithm>

#include <catch2/catch.hpp>

#include "io/write/number_name.hpp"
#include "solver/design/shape_slopes.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

// Twisted on leaving the press, on a rest shape, with plastics that creep.
TEST_CASE("with motions held a shape's derivatives by lines are those of solves on moved meshes") {
    const Board board = example("straight-from-the-press");
    std::vector<NumberId> requests;
    for (const char* const name : {"camber", "nose_height", "twist"}) {
        requests.push_back({Kind::shape, "release", 0, 0, {}, name});
        requests.push_back({Kind::shape, "cold", 0, 0, {}, name});
    }
    requests.push_back({Kind::shape, "mould", 0, 0, {}, "camber"});
    requests.push_back({Kind::shape, "release", 0, 0.2, {}, "concavity"});
    NumbersOptions options;
    options.degree = 2;
    NumbersOptions plain = options;
    options.slopes = true;
    options.lines = lines_among(
        ids_of(board, {"sidewall.width_mm", "layer.ribbon.zone.y_mm[0]", "planform.nose_width_mm",
                       "rest_shape.station_mm[0]", "core.station_mm[5]", "edge.flange.width_mm"}));
    REQUIRE(options.lines.size() == 6);
    const BoardNumbers found = board_numbers(board, requests, options);
    const StationsOf stations = stations_of(requests);
    const MeshMover mover(found.prepared, board, stations);
    for (const LineValue& line : options.lines) {
        REQUIRE_FALSE(has_kink(board, line, stations));
        constexpr double step = 1e-4; // lines of this board are 0.5 mm apart and more
        const ShapeChange change = shape_change(board, line, step);
        const auto at = [&](const Board& there, double share) {
            plain.prepared = mover.moved(change, share);
            return board_numbers(there, requests, plain).numbers;
        };
        const auto below = at(*change.below, change.low);
        const auto above = at(*change.above, change.low + change.width);
        const auto column = std::find(found.values.begin(), found.values.end(), line.id);
        REQUIRE(column != found.values.end());
        for (std::size_t k = 0; k < requests.size(); ++k) {
            const double own = found.numbers[k].slope(column - found.values.begin());
            const double two = (above[k].quantity.value - below[k].quantity.value) / change.width;
            CAPTURE(path_of(line.id), number_name(requests[k]), own, two);
            CHECK(own == Approx(two).epsilon(2e-4).margin(2e-6)); // what the step leaves of the two
        }
    }
}
