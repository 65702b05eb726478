// What holds for every construction, on random ones: two ways to weigh, two to differentiate, and
// the mirror image.
#include <cmath>

#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/write/design_path.hpp"
#include "mesh/board/error.hpp"
#include "mesh/mesher.hpp"
#include "solver/design/section_slopes.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"
#include "solver/response/thin_core.hpp"
#include "tests/board_file_checks.hpp"
#include "tests/mirror_image.hpp"
#include "tests/random_board.hpp"
#include "tests/random_construction.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

const MaterialLibrary& library() {
    static const MaterialLibrary all = load_material_library();
    return all;
}

Board construction(unsigned seed) {
    return random_construction(random_board(seed, library()), seed);
}

// Mass, balance point, and EI and GJ at two stations.
Eigen::VectorXd plain_numbers(const Board& board) {
    const MassReport mass = board_mass(board);
    const auto [tail, nose] = x_extent(board.planform);
    const CrossSection a = cross_section(board, 0.6 * tail + 0.4 * nose);
    const CrossSection b = cross_section(board, 0.3 * tail + 0.7 * nose);
    Eigen::VectorXd all(7);
    all << mass.mass, mass.x, mass.y, a.EI, a.GJ, b.EI, b.GJ;
    return all;
}

Eigen::MatrixXd exact_slopes(const DesignBoard& design) {
    const Board& board = *design.board;
    const Layup<double> layup = make_layup<double>(board);
    const auto [tail, nose] = x_extent(board.planform);
    const SectionWeights mass = mass_weights(board);
    const SectionWeights a = cross_section_weights(layup, 0.6 * tail + 0.4 * nose);
    const SectionWeights b = cross_section_weights(layup, 0.3 * tail + 0.7 * nose);
    return design_slopes(design, {&mass, &a, &b});
}

} // namespace

TEST_CASE("random constructions weigh the same by strips along stations and by points") {
    for (unsigned seed = 0; seed < 12; ++seed) {
        CAPTURE(seed);
        Board board = construction(seed);
        REQUIRE_FALSE(thin_core(board));
        board.mass_only = {};
        CHECK(mass_by_points(board) == Approx(board_mass(board).mass).epsilon(0.02));
    }
}

TEST_CASE("derivatives of mass, EI and GJ of random constructions are what a small step does") {
    for (unsigned seed = 100; seed < 103; ++seed) {
        const Board board = construction(seed);
        const DesignBoard design = design_board(board);
        const Eigen::MatrixXd exact = exact_slopes(design);
        const Eigen::VectorXd now = plain_numbers(board);
        for (std::size_t i = 0; i < design.values.size(); i += 3) {
            const DesignValue& value = design.values[i];
            if (value.kind().moves_lines) {
                continue; // tests/solver/design/shape_slopes_test
            }
            const double step = 1e-5 * (value.value == 0 ? 1 : std::abs(value.value));
            const auto at = [&](double moved) {
                Eigen::VectorXd one(1);
                one << value.value + moved;
                return plain_numbers(*design_board(board, {{value.id}, one}).board);
            };
            const Eigen::VectorXd found = (at(step) - at(-step)) / (2 * step);
            for (Eigen::Index k = 0; k < found.size(); ++k) {
                const double slope = exact(k, static_cast<Eigen::Index>(i));
                const double floor = 1e-2 * std::max(std::abs(now(k)), 1e-3) /
                                     (value.value == 0 ? 1 : std::abs(value.value));
                INFO("found " << found(k) << " slope " << slope << " now " << now(k) << " value "
                              << value.value << " seed " << seed << " number " << k << " "
                              << path_of(value.id));
                CHECK(std::abs(found(k) - slope) <= 1e-4 * std::max(std::abs(slope), floor));
            }
        }
    }
}

TEST_CASE("the mirror image of a random construction weighs the same, the other way round") {
    for (unsigned seed = 200; seed < 210; ++seed) {
        CAPTURE(seed);
        const Eigen::VectorXd one = plain_numbers(construction(seed));
        const Eigen::VectorXd two = plain_numbers(mirror_image(construction(seed), MirrorIn::y));
        for (Eigen::Index k = 0; k < one.size(); ++k) {
            CAPTURE(k);
            CHECK(two(k) == Approx(k == 2 ? -one(k) : one(k)).epsilon(1e-6).margin(1e-7));
        }
    }
}

TEST_CASE("random constructions are meshed soundly or refused as a mesh that does not exist") {
    int refused = 0;
    constexpr int boards = 30;
    for (unsigned seed = 300; seed < 300 + boards; ++seed) {
        CAPTURE(seed);
        const Board board = construction(seed);
        try {
            const Mesh mesh = mesh_planform(board, {});
            CHECK(mesh.min_scaled_jacobian > 0.1);
        } catch (const SolveError& error) {
            UNSCOPED_INFO(error.what());
            ++refused;
        }
    }
    CHECK(refused <= 1);
}
