// Bars of bench cases where the change from degree 2 to 3 is next to nothing by chance.
#include "solver/case_bars.hpp"

#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "io/read/read_board.hpp"
#include "solver/response/error_bar.hpp"
#include "solver/study.hpp"

using namespace vrid;

namespace {

struct Chance {
    std::string board;
    std::string bench;
};

// Strips found among random ones (no core, one to three sheets).
std::vector<Chance> chances() {
    const std::string head = "format = 1\nname = \"strip\"\n[planform]\n";
    return {{head + "rectangle_mm = [930, 164]\nrunning_length_mm = 697\n"
                    "[stance]\nwidth_mm = 296\nfoot_length_mm = 182\nfoot_width_mm = 98\n"
                    "setback_mm = 27\n"
                    "[[layer]]\nname = \"cloth\"\nfabric = \"glass-ud-300\"\nangle_deg = -45\n",
             "stance-twist"},
            {head + "rectangle_mm = [227, 81]\nrunning_length_mm = 183\n"
                    "[stance]\nwidth_mm = 99\nfoot_length_mm = 40\nfoot_width_mm = 49\n"
                    "setback_mm = 2\n[[layer]]\nname = \"metal\"\nmaterial = \"aluminium\"\n"
                    "thickness_mm = 2\n[[layer]]\nname = \"biax\"\nfabric = \"biax-680\"\n"
                    "angle_deg = 10\n[[layer]]\nname = \"another\"\nfabric = \"biax-680\"\n"
                    "angle_deg = 30\n",
             "tail-twist"},
            {head + "rectangle_mm = [683, 254]\nrunning_length_mm = 571\n"
                    "[stance]\nwidth_mm = 171\nfoot_length_mm = 66\nfoot_width_mm = 152\n"
                    "setback_mm = 11\n[[layer]]\nname = \"wood\"\nmaterial = \"maple\"\n"
                    "thickness_mm = 3\n[[layer]]\nname = \"plastic\"\n"
                    "material = \"phenolic-paper\"\nthickness_mm = 6\n",
             "stance-twist"}};
}

Quantity stiffness(const Board& board, const std::string& bench, int degree) {
    StudyOptions options;
    options.cases = {bench};
    options.degree = degree;
    options.threads = 1;
    return run_study(board, options).cases.front().numbers.front().quantity;
}

} // namespace

TEST_CASE("a twist that stands still from degree 2 to 3 by chance has a bar that holds degree 6") {
    for (const Chance& one : chances()) {
        const Board board =
            read_board_text({one.board, "strip.toml", "."}, load_material_library());
        const Quantity shown = stiffness(board, one.bench, 3);
        const Quantity before = stiffness(board, one.bench, 2);
        const Quantity truth = stiffness(board, one.bench, 6);
        const double off = std::abs(shown.value - truth.value);
        CAPTURE(one.board, shown.value, shown.error, before.value, truth.value);
        CHECK(error_bar(3, shown.value, before.value) < 0.3 * off); // the chance
        CHECK(off <= shown.error);
        CHECK(shown.error < 10 * off); // a bar, not a way out
    }
}
