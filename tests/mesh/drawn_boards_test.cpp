#include <catch2/catch.hpp>

#include "board/drawn_shapes.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "mesh_checks.hpp"
#include "solver/study.hpp"
#include "tests/places.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

Board example() {
    return read_board(std::string(source_dir) + "/examples/nh-157-querwind/board.toml",
                      load_material_library());
}

double nose_twist(const Board& board) { // [N m/rad]
    StudyOptions options;
    options.cases = {"nose-twist"};
    return run_study(board, options).cases.at(0).numbers.at(0).quantity.value;
}

} // namespace

// 200 of them in bench_drawn_outlines.
TEST_CASE("drawn outlines of few or many points, rounded or not, are meshed well and solved") {
    constexpr unsigned drawings = 16;
    Board board = example();
    for (unsigned seed = 0; seed < drawings; ++seed) {
        const RandomDrawing drawing = random_drawing(seed);
        INFO("seed " << seed << ", " << drawing.outline.points.size() << " points, "
                     << drawing.decimals << " decimals");
        board.planform =
            drawn_planform(drawing.outline, drawing.running_length, rounding(drawing.decimals))
                .planform;
        const Mesh mesh = mesh_planform(board, {});
        CHECK(mesh.min_scaled_jacobian > 0.1);
        CHECK(euler_characteristic(mesh) == 1);
        CHECK(smallest_jacobian(mesh, 3) > 0);
        CHECK(outline_error(board, mesh) < 1e-9);
        if (seed % 8 == 0) {
            CHECK(nose_twist(board) > 0);
        }
        if (drawing.symmetric) { // drawn as it is: the mesh is as good as that of the exact shape
            board.planform = parametric_planform(ordinary_shape(seed));
            CHECK(mesh.min_scaled_jacobian > 0.8 * mesh_planform(board, {}).min_scaled_jacobian);
        }
    }
}

TEST_CASE("an outline of 400 points in whole millimetres is as stiff as the exact one") {
    Board board = example();
    REQUIRE(board.planform.shape.has_value());
    const double exact = nose_twist(board);
    board.planform =
        drawn_planform(drawn(board.planform, 400, 0), board.planform.running_length, rounding(0))
            .planform;
    // 0.2 mm of 260 on either side of the board
    CHECK(nose_twist(board) == Approx(exact).epsilon(2e-3));
}
