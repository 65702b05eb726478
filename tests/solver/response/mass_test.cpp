#include "solver/response/mass.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "../../random_board.hpp"

using namespace vrid;

TEST_CASE("the mass does not change with a core station that stands a hair off the board's end") {
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 0; seed < 40; ++seed) {
        Board board = tests::random_board(seed, library);
        if (!board.core) {
            continue;
        }
        CAPTURE(seed);
        const auto [tail, nose] = x_extent(board.planform);
        // a straight line in the station's neighbourhood: the profile is the same with and without
        board.core->thickness = {Interpolation::linear, {tail - 0.1, nose + 0.1}, {6e-3, 6e-3}};
        const double mass = board_mass(board).mass;
        for (const double hair :
             {-8e-3, -1e-3, -1e-4, -1e-5, -2e-6, 1e-6, 1e-7, 1e-10, 1e-13, -1e-13, -1e-10, -1e-7}) {
            CAPTURE(hair);
            board.core->thickness.x = {tail - hair, nose + hair};
            CHECK(board_mass(board).mass == Approx(mass).epsilon(hair < -1e-6 ? 2e-5 : 1e-6));
        }
    }
}

TEST_CASE("a coupon a hair shorter than a round number has the mass of its volume") {
    Board board;
    board.planform = rectangle_planform(0.299999999999, 0.04);
    board.planform.running_length = 0.24;
    board.materials["wood"].density = 500;
    board.materials["wood"].isotropic = true;
    Layer core;
    core.name = "core";
    core.kind = LayerKind::core;
    board.layers = {core};
    Profile thickness; // filled piece by piece: GCC 12 sees a use after free in temporaries of it
    thickness.interpolation = Interpolation::linear;
    thickness.x = {-0.15, 0.15};
    thickness.value = {7e-3, 7e-3};
    board.core.emplace();
    board.core->thickness = thickness;
    board.core->strips.resize(1);
    board.core->strips[0].material = "wood";
    board.core->strips[0].width = 0.012;
    const MassReport report = board_mass(board);
    CHECK(report.mass == Approx(0.3 * 0.04 * 7e-3 * 500).epsilon(1e-9));
    CHECK(std::abs(report.x) < 1e-12);
}
