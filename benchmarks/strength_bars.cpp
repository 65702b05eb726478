// The bars of strength put to the test: random boards, the load of the first failure of every case
// at the default degree and at degree 4 against degree 5 on the same mesh. A number printed as not
// resolved makes no promise and is counted apart. Arguments: first seed (default 0), boards
// (default 40).
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "benchmarks/plate.hpp"
#include "mesh/board/error.hpp"
#include "solver/strength_study.hpp"
#include "tests/random_board.hpp"

using namespace vrid;

namespace {

struct Count {
    int all = 0, inside = 0, open = 0;
    double worst = 0; ///< error over bar
    unsigned seed = 0;
};

void compare(const CaseStrength& shown, const CaseStrength& truth, unsigned seed, Count& count) {
    for (const auto part : {&CaseStrength::first, &CaseStrength::away, &CaseStrength::breaks}) {
        const auto& one = shown.*part;
        const auto& best = truth.*part;
        if (!one || !best) {
            continue;
        }
        if (!one->resolved) {
            ++count.open;
            continue;
        }
        const double error = std::abs(one->load.value - best->load.value);
        const double floor = 1e-6 * best->load.value; // of rounding
        ++count.all;
        count.inside += error <= one->load.error + floor ? 1 : 0;
        const double ratio = error / (one->load.error + floor);
        if (ratio > count.worst) {
            count.worst = ratio;
            count.seed = seed;
        }
        if (ratio > 1) {
            std::printf("  seed %u %s: %.5g +- %.2g, at degree 5 %.5g\n", seed, shown.name.c_str(),
                        one->load.value, one->load.error, best->load.value);
        }
    }
}

void print(int degree, const Count& count) {
    std::printf("degree %d: %d numbers, %.1f %% inside their bar, %d not resolved, worst error "
                "%.2f bars (seed %u)\n",
                degree, count.all, 100.0 * count.inside / std::max(count.all, 1), count.open,
                count.worst, count.seed);
}

} // namespace

int main(int count, char** words) {
    const unsigned first = count > 1 ? static_cast<unsigned>(std::atoi(words[1])) : 0;
    const unsigned boards = count > 2 ? static_cast<unsigned>(std::atoi(words[2])) : 40;
    const MaterialLibrary library = load_material_library();
    std::array<Count, 2> counts;
    for (unsigned seed = first; seed < first + boards; ++seed) {
        const Board board = tests::random_board(seed, library);
        try {
            std::array<StrengthResult, 3> result;
            for (int degree = 3; degree <= 5; ++degree) {
                StrengthOptions options;
                options.degree = degree;
                result[static_cast<std::size_t>(degree - 3)] = run_strength(board, options);
            }
            for (std::size_t i = 0; i < 2; ++i) {
                for (std::size_t k = 0; k < result[i].cases.size(); ++k) {
                    compare(result[i].cases[k], result[2].cases[k], seed, counts[i]);
                }
            }
        } catch (const SolveError& error) {
            std::printf("seed %u: %s\n", seed, error.what());
        }
    }
    for (std::size_t i = 0; i < 2; ++i) {
        print(static_cast<int>(i) + 3, counts[i]);
    }
    std::printf("%.0f s of processor time\n", cpu_seconds());
}
