// The bent board: what it costs against the seven cases at rest (targets of perf: one bending case
// to 60 mm with its twists, bars included, below 12 plain solves; derivatives below one more). Its
// bars: bend_bars.cpp.
#include <algorithm>
#include <cstdio>

#include "io/read/read_board.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/study.hpp"
#include "solver/system/stopwatch.hpp"

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

} // namespace

int main() {
    cost(read_board(VRID_SOURCE_DIR "/examples/nh-157-querwind/board.toml",
                    load_material_library()));
    return 0;
}
