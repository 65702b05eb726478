// What `check` accepts can be solved: a sample of the random board files.
#include <cmath>

#include <catch2/catch.hpp>

#include "../board_file_checks.hpp"
#include "../whole/run_program.hpp"
#include "mesh/board/error.hpp"
#include "solver/study.hpp"
#include "solver/system/model.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

// Mass of the laminate by the mesh's quads [kg].
double mass_by_quads(const Board& board, const Mesh& mesh) {
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    constexpr int degree = 3;
    const PlateModel model = make_model(mesh, degree, sections);
    double mass = 0;
    for (std::size_t quad = 0; quad < mesh.quads.size(); ++quad) {
        mass += quad_moments(model, static_cast<int>(quad))[0].sum();
    }
    return mass;
}

} // namespace

TEST_CASE("random board files are solved, and their quads weigh what their strips do") {
    const TemporaryFolder folder;
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 3000; seed < 3012; ++seed) {
        const RandomBoardFile file = random_board_file(seed);
        INFO("seed " << seed << "\n" << file.toml);
        const Board board = read_file(file, folder.path(), library);
        StudyOptions options;
        options.degree = 2;
        options.threads = 1;
        try {
            const StudyResult result = run_study(board, options);
            for (const CaseResult& one : result.cases) {
                for (const NamedQuantity& number : one.numbers) {
                    INFO(one.name << " " << number.name);
                    CHECK(std::isfinite(number.quantity.value));
                    CHECK(number.quantity.value > 0);
                    CHECK(std::isfinite(number.quantity.error));
                }
            }
            Board bare = board; // of what lies on the laminate
            bare.mass_only = {};
            const double follows = result.mesh.notes.empty() ? 2e-4 : 3e-3;
            CHECK(mass_by_quads(board, result.mesh) ==
                  Approx(board_mass(bare).mass).epsilon(follows));
        } catch (const SolveError& error) {
            FAIL_CHECK(error.what());
        }
    }
}
