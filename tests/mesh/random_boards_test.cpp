#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "../random_board.hpp"
#include "mesh/board/error.hpp"
#include "mesh/mesher.hpp"
#include "mesh_checks.hpp"
#include "solver/study.hpp"

TEST_CASE("random boards are meshed soundly, follow their lines or say which not") {
    constexpr int boards = 150;
    const vrid::MaterialLibrary library = vrid::load_material_library();
    int refused = 0;
    int noted = 0;
    for (unsigned seed = 0; seed < boards; ++seed) {
        INFO("seed " << seed);
        const vrid::Board board = vrid::tests::random_board(seed, library);
        vrid::MeshOptions options;
        options.geometry_degree = 4;
        try {
            const vrid::Mesh mesh = mesh_planform(board, options);
            CHECK(mesh.min_scaled_jacobian > 0.1);
            CHECK(euler_characteristic(mesh) == 1);
            CHECK(sides_agree(mesh));
            CHECK(outline_area(mesh) == Approx(area(board.planform)).epsilon(1e-5));
            CHECK(smallest_jacobian(mesh, 3) > 0);
            if (mesh.notes.empty()) {
                CHECK(straddling_quads(board, options, mesh) == 0);
            }
            noted += mesh.notes.empty() ? 0 : 1;
        } catch (const vrid::SolveError& error) {
            UNSCOPED_INFO(error.what());
            ++refused;
        }
    }
    CHECK(refused <= boards / 50);
    CHECK(noted <= boards / 4);
    WARN(boards << " random boards: " << noted << " with notes, " << refused << " refused");
}

// The tail is blunt: a band's border runs nearly along the contact line there.
TEST_CASE("a contact station keeps its line where the border of a band comes near it, which is "
          "told") {
    const vrid::Board board = vrid::tests::random_board(114, vrid::load_material_library());
    vrid::StudyOptions options;
    options.cases = {"centre-flex"};
    const auto prepared = vrid::prepare_study(board, options);
    const vrid::Mesh& mesh = prepared->mesh;
    const double contact = board.planform.running_length / 2;
    for (const double x : {-contact, contact}) {
        CHECK(std::any_of(mesh.lines.begin(), mesh.lines.end(), [&](const vrid::StationLine& line) {
            return std::abs(line.x - x) < 1e-6;
        }));
    }
    REQUIRE(mesh.notes.size() == 1);
    CHECK_THAT(mesh.notes[0],
               Catch::Contains("from the outline is not followed by the mesh along"));
}
