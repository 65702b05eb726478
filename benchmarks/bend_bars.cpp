// The bars of bent numbers put to the test: random boards, given a rest shape, bent to 40 mm at
// degree 3 with the bars of degree 2, and at degree 5 on the same mesh, for which Newton starts
// from degree 3. Quads up to 120 mm, where layers' borders do not make them smaller: a bar is to
// hold on any mesh. A round takes each board one of the three ways (centre down, nose up, tail up)
// with its twists, the next round another. A board that cannot be bent so far is counted apart.
// Degree 5 has no bar of its own: "surely" is for an error larger by 1 / (1 - (3/5)^2), as if both
// degrees converged as slowly as p^-2. Not covered: other travels, degrees above 3, boards without
// feet.
// Arguments: boards (default 60), first seed (default 0), rounds (default 2), a file for all
// samples as CSV. What is done so far is printed board by board.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

#include "benchmarks/plate.hpp"
#include "io/materials/material_library.hpp"
#include "mesh/board/error.hpp"
#include "solver/bend.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/mesh_request.hpp"
#include "solver/study.hpp"
#include "solver/system/large_memory.hpp"
#include "tests/bar_statistic.hpp"
#include "tests/random_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

constexpr double travel = 0.04; // [m]
constexpr double slowest = 1 / (1 - 9.0 / 25);

// Tips up to 45 mm high and round, as four heights tell them; none where the board has no tip.
void add_tip(double contact, double length, double sign, Profile& shape) {
    if (length < 0.02) {
        return;
    }
    const double height = std::min(0.045, 0.35 * length);
    for (const double share : {0.25, 0.5, 0.75, 1.0}) {
        shape.x.push_back(sign * (contact + share * length));
        shape.value.push_back(share * share * height);
    }
}

void give_rest_shape(Board& board) {
    const auto [tail, nose] = x_extent(board.planform);
    const double contact = board.planform.running_length / 2;
    Profile shape;
    add_tip(contact, -contact - tail, -1, shape);
    std::reverse(shape.x.begin(), shape.x.end());
    std::reverse(shape.value.begin(), shape.value.end());
    constexpr double camber = 0.005;
    for (const auto& [x, z] : {std::pair{-contact, 0.0}, {0.0, camber}, {contact, 0.0}}) {
        shape.x.push_back(x);
        shape.value.push_back(z);
    }
    add_tip(contact, nose - contact, 1, shape);
    board.rest_shape = shape;
}

std::vector<std::string> way(int turn) {
    switch (turn % 3) {
    case 0:
        return {"centre-flex", "stance-twist", "full-twist"};
    case 1:
        return {"nose-flex", "nose-twist"};
    default:
        return {"tail-flex", "tail-twist"};
    }
}

// A model at some degree with the order of its elimination.
struct Solvable {
    PlateModel model;
    EliminationTree tree;
};

Solvable solvable(const Board& board, const Prepared& prepared, int degree,
                  SectionCache& sections) {
    Solvable one{make_model(prepared.mesh, degree, sections), {}};
    one.model.rest = shape_of(board, {});
    one.tree = elimination_order(one.model.numbering, prepared.stations);
    return one;
}

std::vector<BarSample> bent_samples(const Board& board, int turn, unsigned seed) {
    StudyOptions options;
    options.cases = way(turn);
    options.bend = {travel};
    options.max_size = 0.12;
    options.threads = 1;
    const SharedPrepared prepared = prepare_study(board, options);
    std::vector<const BenchCase*> cases;
    for (const std::string& name : options.cases) {
        cases.push_back(&bench_of(name));
    }
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    const auto pass = [&](const Solvable& at, const BendPass* near) {
        return bend_pass(board, {at.model, at.tree}, cases, options, near);
    };
    const Solvable two = solvable(board, *prepared, 2, sections);
    const BendPass coarse = pass(two, nullptr);
    const Solvable three = solvable(board, *prepared, 3, sections);
    const BendPass fine = pass(three, &coarse);
    const Solvable five = solvable(board, *prepared, 5, sections);
    const BendPass truth = pass(five, &fine);
    const Bending shown = with_bars(fine, coarse);
    std::vector<BarSample> samples;
    for (std::size_t i = 0; i < shown.cases.size(); ++i) {
        const BentCase& one = shown.cases[i];
        for (std::size_t k = 0; k < one.numbers.size(); ++k) {
            const std::string& number = one.numbers[k].name;
            const Quantity& printed = one.numbers[k].quantity;
            if (number == "stiffness" && printed.unit == Unit::bending_stiffness) {
                continue; // the force over the travel: it would count twice
            }
            const double exact = truth.cases[i].numbers[k].quantity.value;
            samples.push_back({seed, printed.unit == Unit::twist_stiffness ? "twist" : number,
                               one.name + " " + number, printed.value, printed.error, exact,
                               (slowest - 1) * std::abs(exact - printed.value)});
        }
    }
    std::printf("seed %u: %zu quads", seed, prepared->mesh.quads.size());
    return samples;
}

void save(const char* path, const std::vector<BarSample>& samples) {
    std::ofstream out(path, std::ios::app);
    out.precision(12);
    for (const BarSample& s : samples) {
        out << s.seed << ',' << s.name << ',' << s.value << ',' << s.bar << ',' << s.truth << '\n';
    }
}

void tell(const std::vector<BarSample>& samples, double seconds) {
    const auto outside = std::count_if(samples.begin(), samples.end(),
                                       [](const BarSample& one) { return !one.covered(); });
    std::printf(", %zu numbers, %td outside, %.0f s\n", samples.size(), outside, seconds);
    for (const BarSample& one : samples) {
        if (!one.covered()) {
            std::printf("    %s: %.7g +- %.2g, at degree 5 %.7g\n", one.name.c_str(), one.value,
                        one.bar, one.truth);
        }
    }
    std::fflush(stdout);
}

void print(const std::vector<BarSample>& samples) {
    if (samples.empty()) {
        return;
    }
    std::printf("%-26s %6s %9s %9s %8s   least bar over error\n", "", "n", "inside %", "surely %",
                "bar/err");
    for (const NamedStatistic& one : statistics(samples)) {
        const BarStatistic& s = one.statistic;
        std::printf("%-26s %6d %9.2f %9.2f %8.1f   %.2f, seed %u\n", one.name.c_str(), s.samples,
                    100 * s.coverage, 100 * s.sure_coverage, s.median_ratio,
                    s.worst->bar / std::max(s.worst->error(), 1e-300), s.worst->seed);
    }
    std::fflush(stdout);
}

} // namespace

int main(int count, char** words) {
    keep_freed_memory(); // as the program does
    const int boards = count > 1 ? std::atoi(words[1]) : 60;
    const unsigned first = count > 2 ? static_cast<unsigned>(std::atoi(words[2])) : 0;
    const int rounds = count > 3 ? std::atoi(words[3]) : 2;
    const MaterialLibrary library = load_material_library();
    std::vector<BarSample> all;
    int failed = 0;
    for (int round = 0; round < rounds; ++round) {
        int done = 0;
        for (unsigned seed = first; done < boards; ++seed) {
            Board board = random_board(seed, library);
            if (!board.stance) {
                continue;
            }
            give_rest_shape(board);
            const double start = cpu_seconds();
            try {
                const std::vector<BarSample> samples = bent_samples(board, done + round, seed);
                ++done;
                tell(samples, cpu_seconds() - start);
                all.insert(all.end(), samples.begin(), samples.end());
                if (count > 4) {
                    save(words[4], samples);
                }
                if (done % 10 == 0) {
                    print(all);
                }
            } catch (const SolveError& error) {
                ++failed;
                std::printf("seed %u: %s\n", seed, error.what());
                std::fflush(stdout);
            }
        }
        std::printf("%d boards, one way each, %d more that cannot be bent so far, %.0f s of "
                    "processor time so far\n",
                    done, failed, cpu_seconds());
    }
    print(all);
}
