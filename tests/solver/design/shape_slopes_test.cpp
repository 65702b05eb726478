// Derivatives by values that move lines of the mesh: closed forms, full solves of changed boards
// on meshes that move with them, and identities.
#include "solver/design/shape_slopes.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/materials/design_paths.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number_name.hpp"
#include "solver/design/line_kinds.hpp"
#include "solver/design/moved_mesh.hpp"
#include "solver/design/plain_numbers.hpp"
#include "tests/random_board.hpp"
#include "tests/shipped.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

namespace {

constexpr double per_mm = 1e-3;

// A strip of one layer: 50 x 10 mm, 1000 long, E = 10 GPa, nu = 0, running length 900, stance 500,
// feet 100 x 40.
Board strip() {
    Board board;
    board.name = "strip";
    board.planform = rectangle_planform(1, 0.05);
    board.planform.running_length = 0.9;
    Material plain;
    plain.name = "plain";
    plain.isotropic = true;
    plain.E1 = 10e9;
    plain.nu12 = 0;
    plain.density = 1000;
    complete(plain);
    board.materials["plain"] = plain;
    Layer layer;
    layer.name = "all";
    layer.material = "plain";
    layer.thickness = 0.01;
    board.layers = {layer};
    board.stance = Stance{0.5, 0, 0.1, 0.04};
    return board;
}

std::vector<LineValue> line_ids(const Board& board) {
    Board copy = board;
    std::vector<DesignPlace> places;
    add_line_places(copy, places);
    std::vector<LineValue> ids;
    for (const DesignPlace& place : places) {
        ids.push_back({place.id, {}});
    }
    return ids;
}

struct Slopes {
    BoardNumbers found;
    [[nodiscard]] double of(std::size_t number, const std::string& path) const {
        for (std::size_t i = 0; i < found.values.size(); ++i) {
            if (path_of(found.values[i]) == path) {
                return found.numbers[number].slope(static_cast<Eigen::Index>(i));
            }
        }
        FAIL("no " << path);
        return 0;
    }
};

Slopes slopes_of(const Board& board, const std::vector<NumberId>& requests,
                 std::vector<LineValue> ids = {}, int degree = 0) {
    NumbersOptions options;
    options.degree = degree;
    options.lines = ids.empty() ? line_ids(board) : std::move(ids);
    return {board_numbers(board, requests, options)};
}

} // namespace

TEST_CASE("a strip's nose-flex and its derivatives by lengths are those of the Timoshenko beam") {
    // c = l^3 / 3 EI + l / kGA, l = RL/2 + setback - stance/2 - foot/2 = 150 mm, k = 5/6
    const Board board = strip();
    const Slopes slopes = slopes_of(board, {{Kind::bench_case, "nose-flex"}});
    CHECK(slopes.found.numbers[0].quantity.value == Approx(36938.534).epsilon(1e-7));
    const double unit = 1 / per_mm * per_mm * 1e6; // N/mm per mm
    CHECK(slopes.of(0, "planform.running_length_mm") == Approx(-0.36873040 * unit).epsilon(1e-6));
    CHECK(slopes.of(0, "stance.width_mm") == Approx(0.36873040 * unit).epsilon(1e-6));
    CHECK(slopes.of(0, "stance.foot_length_mm") == Approx(0.36873040 * unit).epsilon(1e-6));
    CHECK(slopes.of(0, "stance.setback_mm") == Approx(-0.73746081 * unit).epsilon(1e-6));
    CHECK(slopes.of(0, "planform.rectangle_mm[1]") == Approx(0.73877069 * unit).epsilon(1e-6));
    CHECK(std::abs(slopes.of(0, "planform.rectangle_mm[0]")) < 1e-6 * unit);
}

TEST_CASE("the sidecut radius of an example moves with its widths and lengths") {
    // own recomputation of the circle through three points, differentiated by hand
    const Board board = shipped_board("nh-157-biax");
    const Slopes slopes = slopes_of(board, {{Kind::sidecut_radius}, {Kind::length}, {Kind::area}});
    CHECK(slopes.found.numbers[0].quantity.value == Approx(8.3835792).epsilon(1e-7));
    CHECK(slopes.of(0, "planform.waist_width_mm") == Approx(0.21771723e3).epsilon(1e-6));
    CHECK(slopes.of(0, "planform.nose_width_mm") == Approx(-0.10529370e3).epsilon(1e-6));
    CHECK(slopes.of(0, "planform.tail_width_mm") == Approx(-0.11242352e3).epsilon(1e-6));
    CHECK(slopes.of(0, "planform.running_length_mm") == Approx(0.014755895e3).epsilon(1e-6));
    CHECK(slopes.of(0, "planform.waist_x_mm") == Approx(3.9664e-3).epsilon(1e-3));
    CHECK(slopes.of(1, "planform.nose_length_mm") == Approx(1).epsilon(1e-9));
    CHECK(slopes.of(1, "planform.waist_width_mm") == 0);
}

TEST_CASE("shape derivatives of cases and modes are those of full solves on moved meshes") {
    const auto [name, seed] =
        GENERATE(table<std::string, unsigned>({{"nh-157-biax", 0}, {"", 3}, {"", 8}, {"", 21}}));
    const Board board = name.empty() ? random_board(seed, shipped_library()) : shipped_board(name);
    CAPTURE(name, seed);
    std::vector<NumberId> requests = plain_requests(board);
    std::erase_if(requests, [](const NumberId& r) { return needs_no_mesh(r); });
    constexpr int degree = 2; // derivatives are those of the discrete board
    const StationsOf stations = stations_of(requests);
    NumbersOptions options;
    options.degree = degree;
    options.slopes = false;
    const BoardNumbers plain = board_numbers(board, requests, options);
    for (const LineValue& line : line_ids(board)) {
        if (has_kink(board, line, stations)) {
            continue;
        }
        NumbersOptions exact = options;
        exact.slopes = true;
        exact.lines = {line};
        exact.prepared = plain.prepared;
        const BoardNumbers found = board_numbers(board, requests, exact);
        const auto column =
            std::find(found.values.begin(), found.values.end(), line.id) - found.values.begin();
        const MeshMover mover(plain.prepared, board, stations);
        const auto difference = [&](double h) {
            const ShapeChange change = shape_change(board, line, h);
            NumbersOptions moved = options;
            moved.prepared = mover.moved(change, change.low);
            const BoardNumbers low = board_numbers(*change.below, requests, moved);
            moved.prepared = mover.moved(change, change.low + change.width);
            const BoardNumbers high = board_numbers(*change.above, requests, moved);
            Eigen::VectorXd all(static_cast<Eigen::Index>(requests.size()));
            for (std::size_t k = 0; k < requests.size(); ++k) {
                all(static_cast<Eigen::Index>(k)) =
                    (high.numbers[k].quantity.value - low.numbers[k].quantity.value) / change.width;
            }
            return all;
        };
        const Eigen::VectorXd two = (4 * difference(5e-5) - difference(1e-4)) / 3;
        for (std::size_t k = 0; k < requests.size(); ++k) {
            const double slope = found.numbers[k].slope(column);
            const double value = std::abs(found.numbers[k].quantity.value);
            INFO(path_of(line.id) << " " << number_name(requests[k]));
            CHECK(std::abs(slope - two(static_cast<Eigen::Index>(k))) <=
                  1e-6 * std::max(std::abs(slope), value / 0.3));
        }
    }
}
