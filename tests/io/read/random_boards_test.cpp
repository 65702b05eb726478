// Boards as strangers describe them, through the reader: every legal one is taken, and what `check`
// says of it is finite and the same however it is reckoned. benchmarks/random_boards.cpp does the
// same with 20,000.
#include <catch2/catch.hpp>

#include "../../board_file_checks.hpp"
#include "../../mirror_image.hpp"
#include "../../whole/run_program.hpp"
#include "mesh/board/error.hpp"
#include "tests/asserted.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

double laminate_mass(const Board& board, const MassReport& mass) {
    double extra = board.mass_only.resin * area(board.planform);
    if (board.stance) {
        extra += 2 * board.mass_only.inserts_per_foot * board.mass_only.insert_mass;
    }
    return mass.mass - extra;
}

} // namespace

TEST_CASE("every random board file is read, and all that check shows of it is finite") {
    const TemporaryFolder folder;
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 0; seed < few_with_asserts(300); ++seed) {
        const RandomBoardFile file = random_board_file(seed);
        INFO("seed " << seed << "\n" << file.toml);
        try {
            const Board board = read_file(file, folder.path(), library);
            const BoardFigures figures = board_figures(board, {});
            CHECK(not_finite(figures).empty());
            CHECK(figures.mass.mass > 0);
            for (const StationFigures& station : figures.stations) {
                CHECK(station.section.EI > 0);
                CHECK(station.section.GJ > 0);
                CHECK(station.section.width > 0);
            }
        } catch (const InputError& error) {
            FAIL_CHECK(error.what());
        }
    }
}

TEST_CASE("mass by strips along stations is the mass by points of a grid") {
    const TemporaryFolder folder;
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 1000; seed < 1000 + few_with_asserts(100); ++seed) {
        const RandomBoardFile file = random_board_file(seed);
        INFO("seed " << seed << "\n" << file.toml);
        const Board board = read_file(file, folder.path(), library);
        CHECK(laminate_mass(board, board_mass(board)) ==
              Approx(mass_by_points(board)).epsilon(0.01));
    }
}

TEST_CASE("a random board and its mirror image weigh and bend the same") {
    const TemporaryFolder folder;
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 2000; seed < 2000 + few_with_asserts(50); ++seed) {
        const RandomBoardFile file = random_board_file(seed);
        INFO("seed " << seed << "\n" << file.toml);
        const Board board = read_file(file, folder.path(), library);
        const Board image = mirror_image(board, MirrorIn::y);
        CHECK(area(image.planform) == Approx(area(board.planform)).epsilon(1e-12));
        const MassReport mass = board_mass(board);
        const MassReport other = board_mass(image);
        CHECK(other.mass == Approx(mass.mass).epsilon(1e-9));
        CHECK(other.x == Approx(mass.x).margin(1e-9));
        CHECK(other.y == Approx(-mass.y).margin(1e-9));
        for (const double share : {-0.9, -0.3, 0.0, 0.55}) {
            const double x = share * board.planform.running_length / 2;
            CHECK(cross_section(image, x).EI == Approx(cross_section(board, x).EI).epsilon(1e-9));
            CHECK(cross_section(image, x).GJ == Approx(cross_section(board, x).GJ).epsilon(1e-7));
        }
    }
}
