// The bent board: what it costs against the seven cases at rest (targets of perf: one bending case
// to 60 mm with its twists, bars included, below 12 plain solves; derivatives below one more), and
// its bars put to the test on random boards bent to 40 mm, degree 3 against degree 5 on the same
// mesh. Arguments: boards for the bars (default 0), first seed (default 0).
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "io/read/read_board.hpp"
#include "mesh/board/error.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/study.hpp"
#include "solver/system/stopwatch.hpp"
#include "tests/random_board.hpp"

using namespace vrid;

namespace {

double median(std::vector<double> all) {
    std::sort(all.begin(), all.end());
    return all[all.size() / 2];
}

template <class Run> double seconds_of(const Run& run) {
    double seconds = 0;
    {
        const Stopwatch watch(seconds);
        run();
    }
    return seconds;
}

void cost(const Board& board) {
    const std::vector<std::string> flex{"centre-flex", "stance-twist", "full-twist"};
    StudyOptions plain;
    plain.cases = possible_cases(board);
    std::erase(plain.cases, "free-modes");
    StudyOptions bent;
    bent.cases = flex;
    bent.bend = {0.06};
    std::vector<NumberId> requests;
    for (const std::string& name : flex) {
        requests.push_back({NumberId::Kind::bent, name, 0, 0, {}, {}, "stiffness", 0.06});
    }
    std::vector<double> of_bend;
    std::vector<double> of_slopes;
    for (int run = 0; run < 5; ++run) {
        const double one = seconds_of([&] { run_study(board, plain); });
        const double far = seconds_of([&] { run_study(board, bent); });
        const double slopes = seconds_of([&] { board_numbers(board, requests, {}); });
        of_bend.push_back(far / one);
        of_slopes.push_back((slopes - far) / one);
        std::printf("seven cases %.2f s, one bending case to 60 mm with two twists %.2f s, with "
                    "derivatives %.2f s\n",
                    one, far, slopes);
    }
    std::printf("bending: %.1f plain solves (median of 5 paired runs; target below 12), its "
                "derivatives %.1f more\n",
                median(of_bend), median(of_slopes));
}

// A camber of 5 mm, round tips up to 45 mm high, as four heights each tell them.
void give_rest_shape(Board& board) {
    const auto [tail, nose] = x_extent(board.planform);
    const double contact = board.planform.running_length / 2;
    Profile shape;
    const auto add_tip = [&](double length, double sign) {
        const double height = std::min(0.045, 0.35 * length);
        std::vector<std::pair<double, double>> tip;
        for (const double share : {0.25, 0.5, 0.75, 1.0}) {
            tip.emplace_back(sign * (contact + share * length), share * share * height);
        }
        return tip;
    };
    const auto back = add_tip(-contact - tail, -1);
    for (auto one = back.rbegin(); one != back.rend(); ++one) {
        shape.x.push_back(one->first);
        shape.value.push_back(one->second);
    }
    for (const auto& [x, z] : {std::pair{-contact, 0.0}, {0.0, 0.005}, {contact, 0.0}}) {
        shape.x.push_back(x);
        shape.value.push_back(z);
    }
    for (const auto& [x, z] : add_tip(nose - contact, 1)) {
        shape.x.push_back(x);
        shape.value.push_back(z);
    }
    board.rest_shape = shape;
}

struct Count {
    int all = 0, inside = 0;
    std::vector<double> bar_over_error;
};

void compare(const StudyResult& shown, const StudyResult& truth, unsigned seed, Count& count) {
    for (std::size_t i = 0; i < shown.bent.size(); ++i) {
        for (std::size_t k = 0; k < shown.bent[i].numbers.size(); ++k) {
            const Quantity& one = shown.bent[i].numbers[k].quantity;
            const double error = std::abs(one.value - truth.bent[i].numbers[k].quantity.value);
            ++count.all;
            count.inside += error <= one.error + 1e-7 * std::abs(one.value) ? 1 : 0;
            count.bar_over_error.push_back(one.error / std::max(error, 1e-12));
            if (error > one.error) {
                std::printf("  seed %u %s %s: %.6g +- %.2g, error %.2g\n", seed,
                            shown.bent[i].name.c_str(), shown.bent[i].numbers[k].name.c_str(),
                            one.value, one.error, error);
            }
        }
    }
}

void bars(unsigned first, unsigned boards) {
    const MaterialLibrary library = load_material_library();
    Count count;
    int failed = 0;
    for (unsigned seed = first; seed < first + boards; ++seed) {
        Board board = tests::random_board(seed, library);
        if (!board.stance) {
            continue;
        }
        give_rest_shape(board);
        StudyOptions options;
        options.bend = {0.04};
        options.cases = {"centre-flex", "nose-flex", "nose-twist", "stance-twist"};
        try {
            const StudyResult shown = run_study(board, options);
            options.prepared = nullptr;
            options.degree = 5;
            options.max_size = shown.prepared->max_size;
            compare(shown, run_study(board, options), seed, count);
        } catch (const SolveError& error) {
            ++failed;
            std::printf("  seed %u: %s\n", seed, error.what());
        }
    }
    if (count.all > 0) {
        std::printf("%d bent numbers, %.1f %% inside their bar, bar over error %.1f in the "
                    "median; %d boards found no way\n",
                    count.all, 100.0 * count.inside / count.all, median(count.bar_over_error),
                    failed);
    }
}

} // namespace

int main(int argc, char** argv) {
    const unsigned boards = argc > 1 ? static_cast<unsigned>(std::atoi(argv[1])) : 0;
    const unsigned first = argc > 2 ? static_cast<unsigned>(std::atoi(argv[2])) : 0;
    if (boards > 0) {
        bars(first, boards);
        return 0;
    }
    cost(read_board(VRID_SOURCE_DIR "/examples/nh-157-querwind/board.toml",
                    load_material_library()));
    return 0;
}
