// Drawn outlines put to the test: random drawings of 24 to 400 points with 0 to 3 decimals,
// symmetric or not, around the layers of an example board: time of the smoothing, quality of the
// mesh, and whether the bench cases are solved.
// Arguments: first seed (default 0), drawings (default 200), solve every so many (default 10).
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "mesh/board/error.hpp"
#include "mesh/mesher.hpp"
#include "solver/study.hpp"
#include "tests/mesh/board/drawn_shapes.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

struct Figures {
    int refused = 0, noted = 0, solved = 0, strayed = 0;
    double longest = 0; ///< making of an outline [ms]
    std::vector<double> qualities;
};

Planform timed_planform(const RandomDrawing& drawing, Figures& figures) {
    const auto start = std::chrono::steady_clock::now();
    Planform planform =
        drawn_planform(drawing.outline, drawing.running_length, rounding(drawing.decimals))
            .planform;
    const std::chrono::duration<double, std::milli> taken =
        std::chrono::steady_clock::now() - start;
    figures.longest = std::max(figures.longest, taken.count());
    figures.strayed += strayings(planform).empty() ? 0 : 1;
    return planform;
}

void try_drawing(unsigned seed, Board& board, bool solve, Figures& figures) {
    const RandomDrawing drawing = random_drawing(seed);
    try {
        board.planform = timed_planform(drawing, figures);
        const Mesh mesh = mesh_planform(board, {});
        figures.qualities.push_back(mesh.min_scaled_jacobian);
        figures.noted += mesh.notes.empty() ? 0 : 1;
        if (solve) {
            figures.solved += run_study(board, {}).cases.empty() ? 0 : 1;
        }
    } catch (const std::runtime_error& error) {
        ++figures.refused;
        std::printf("seed %u, %zu points, %d decimals: %s\n", seed, drawing.outline.points.size(),
                    drawing.decimals, error.what());
    }
}

} // namespace

int main(int argc, char** argv) {
    const auto argument = [&](int k, unsigned otherwise) {
        return argc > k ? static_cast<unsigned>(std::atoi(argv[k])) : otherwise;
    };
    const unsigned first = argument(1, 0);
    const unsigned count = argument(2, 200);
    const unsigned every = std::max(1U, argument(3, 10));
    Board board = read_board(std::string(VRID_SOURCE_DIR) + "/examples/nh-157-querwind/board.toml",
                             load_material_library());
    Figures figures;
    for (unsigned seed = first; seed < first + count; ++seed) {
        try_drawing(seed, board, (seed - first) % every == 0, figures);
    }
    std::sort(figures.qualities.begin(), figures.qualities.end());
    std::printf(
        "%u drawings: %d refused, %d with lines not followed, %d strayed, %d solved; outline "
        "in up to %.1f ms\n",
        count, figures.refused, figures.noted, figures.strayed, figures.solved, figures.longest);
    if (!figures.qualities.empty()) {
        std::printf("smallest scaled Jacobian: worst %.3f, of one in ten %.3f, median %.3f\n",
                    figures.qualities.front(), figures.qualities[figures.qualities.size() / 10],
                    figures.qualities[figures.qualities.size() / 2]);
    }
    return figures.refused == 0 ? 0 : 1;
}
