#include "solver/response/station.hpp"

#include <catch2/catch.hpp>

#include "../../mirror_image.hpp"
#include "../../random_board.hpp"

using namespace vrid;

TEST_CASE("all points of a part of a station have the part's layers: random boards, bands beside "
          "slanted ends as well") {
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 0; seed < 60; ++seed) {
        const Board board = tests::random_board(seed, library);
        const Layup<double> layup = make_layup<double>(board);
        for (const double share : {-1.05, -0.9, 0.1, 0.7, 0.99}) {
            const double x = share * board.planform.running_length / 2 + 1e-6;
            double wrong = 0; // width [m]
            for (const StationPart& part : station_parts(layup, x)) {
                constexpr int points = 50;
                const double step = (part.y_to - part.y_from) / points;
                for (int i = 0; i < points; ++i) {
                    const double y = part.y_from + (i + 0.5) * step;
                    wrong += stack_key(layup, {x, y}) == part.key ? 0 : step;
                }
            }
            CAPTURE(seed, x);
            CHECK(wrong < 1e-6);
        }
    }
}

TEST_CASE(
    "borders nearer than a place are one from either side: a mirror image has the same parts") {
    Board board = tests::random_board(1, load_material_library());
    board.planform = rectangle_planform(1, 0.2);
    board.layers = {board.layers.front(), board.layers.front(), board.layers.front()};
    for (Layer& layer : board.layers) {
        layer.zone = {};
        layer.mirror = false;
    }
    board.layers[1].zone.y = Range{-0.05, 0.03};
    board.layers[2].zone.y = Range{0.03 + 7e-7, 0.1 - 6e-7}; // a sliver, and one at the outline
    board.edge.reset();
    board.sidewall.reset();
    board.core.reset();
    const Board image = tests::mirror_image(board, tests::MirrorIn::y);
    const auto parts = station_parts(make_layup<double>(board), 0.2);
    const auto other = station_parts(make_layup<double>(image), 0.2);
    REQUIRE(parts.size() == 3);
    REQUIRE(other.size() == 3);
    CHECK(parts[1].y_to == Approx(0.03 + 3.5e-7).epsilon(1e-12));
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(other[i].y_from == Approx(-parts[2 - i].y_to).epsilon(1e-12));
        CHECK(other[i].y_to == Approx(-parts[2 - i].y_from).epsilon(1e-12));
        CHECK(other[i].key == parts[2 - i].key);
    }
}
