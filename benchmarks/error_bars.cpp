// The printed error bars put to the test: random boards, every number of the default setting
// against the same at degree 5 (whose own bar is reckoned against us), and EI and GJ, which have
// none, against five-millimetre elements. Every fourth board has a core of foam, 1 MPa to 1 GPa.
// Arguments: first seed (default 0), boards (default 200), a file for all samples as CSV.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

#include "benchmarks/plate.hpp"
#include "mesh/board/error.hpp"
#include "solver/response/cross_section.hpp"
#include "tests/bar_statistic.hpp"
#include "tests/random_board.hpp"
#include "tests/soft_core.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

constexpr int truth_degree = 5;
constexpr unsigned soft_every = 4; // these have a soft core
constexpr unsigned edge_every = 6; // these boards stand on their edge as well

void print(const NamedStatistic& one) {
    const BarStatistic& s = one.statistic;
    std::printf("%-18s %6d %9.2f %9.2f %8.1f   seed %u, %s: off by %.2g, bar %.2g\n",
                one.name.c_str(), s.samples, 100 * s.coverage, 100 * s.sure_coverage,
                s.median_ratio, s.worst->seed, s.worst->name.c_str(),
                s.worst->error() / std::abs(s.worst->truth),
                s.worst->bar / std::abs(s.worst->truth));
}

// The same board cut into parts of 5 mm by layers of no thickness: the line across has an element
// in each.
Board cut_up(Board board) {
    constexpr double part = 5e-3;
    const int parts = static_cast<int>(std::ceil(0.3 / part));
    for (int k = -parts; k < parts; k += 2) {
        Layer nothing;
        nothing.name = "nothing";
        nothing.material = "polyamide";
        nothing.zone.y = Range{k * part, (k + 1) * part};
        board.layers.push_back(nothing);
    }
    return board;
}

struct SectionErrors {
    double EI = 0, GJ = 0; ///< largest, relative
    unsigned seed = 0;     ///< of that GJ
    double x = 0;          ///< [m]
};

void add_sections(const Board& board, unsigned seed, SectionErrors& errors) {
    const Board fine = cut_up(board);
    for (const double share : {-1.05, -0.9, -0.5, 0.1, 0.7, 1.0}) {
        const double x = share * board.planform.running_length / 2;
        if (width_at(board.planform, x) <= 0) {
            continue;
        }
        const CrossSection shown = cross_section(board, x);
        const CrossSection truth = cross_section(fine, x);
        errors.EI = std::max(errors.EI, std::abs(shown.EI / truth.EI - 1));
        const double off = std::abs(shown.GJ / truth.GJ - 1);
        if (off > errors.GJ) {
            errors.GJ = off;
            errors.seed = seed;
            errors.x = x;
        }
    }
}

void save(const std::string& path, const std::vector<BarSample>& samples) {
    std::ofstream out(path);
    out.precision(15);
    out << "seed,family,name,value,bar,truth,truth_bar\n";
    for (const BarSample& s : samples) {
        out << s.seed << ",\"" << s.family << "\"," << s.name << ',' << s.value << ',' << s.bar
            << ',' << s.truth << ',' << s.truth_bar << '\n';
    }
}

} // namespace

int main(int count, char** words) {
    const unsigned first = count > 1 ? static_cast<unsigned>(std::atoi(words[1])) : 0;
    const int boards = count > 2 ? std::atoi(words[2]) : 200;
    const MaterialLibrary library = load_material_library();
    std::vector<BarSample> samples;
    SectionErrors sections;
    int done = 0;
    int failed = 0;
    for (unsigned seed = first; done < boards; ++seed) {
        const bool soft = seed % soft_every == 1;
        const Board drawn = random_board(seed, library);
        const Board board = soft ? with_soft_core(drawn, seed) : drawn;
        ++done;
        try {
            for (const BarSample& sample : study_samples(board, seed, truth_degree)) {
                samples.push_back(sample);
                if (soft && board.core) {
                    samples.back().family = "soft core, " + sample.family;
                }
            }
            add_sections(board, seed, sections);
            if (seed % edge_every == 0) {
                for (const BarSample& sample : edge_samples(board, seed, truth_degree)) {
                    samples.push_back(sample);
                }
            }
        } catch (const SolveError& error) {
            ++failed;
            std::printf("seed %u: %s\n", seed, error.what());
        }
        if (count > 3) {
            save(words[3], samples);
        }
    }
    std::printf("%d boards, %d of them not solved, %.0f s of processor time\n", done, failed,
                cpu_seconds());
    if (samples.empty()) {
        return 1;
    }
    std::printf("%-18s %6s %9s %9s %8s   worst\n", "", "n", "inside %", "surely %", "bar/err");
    for (const NamedStatistic& one : statistics(samples)) {
        print(one);
    }
    std::printf("EI off by at most %.1e, GJ by %.1e (seed %u, x = %.0f mm)\n", sections.EI,
                sections.GJ, sections.seed, sections.x * 1e3);
}
