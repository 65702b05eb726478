#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/strength_study.hpp"

using namespace vrid;

namespace {

// The flange ends 0.5 mm inside the sidewall: along the curved outline runs a band of core over
// flange much narrower than the walk's steps.
const std::string banded = R"(format = 1
name = "banded"
[planform]
running_length_mm = 1100
waist_width_mm = 250
nose_width_mm = 292
tail_width_mm = 288
nose_length_mm = 200
tail_length_mm = 200
[core]
thickness_mm = [[-750, 1.8], [-550, 2.6], [-280, 7.1], [0, 6.9], [280, 7.1], [550, 2.6], [750, 1.8]]
strips = [{ material = "poplar", width_mm = 20 }]
[[layer]]
name = "base"
material = "uhmwpe"
thickness_mm = 1.2
[[layer]]
name = "lower glass"
fabric = "biax-680"
[[layer]]
name = "core"
core = true
[[layer]]
name = "upper glass"
fabric = "biax-680"
[edge]
material = "steel"
width_mm = 2
flange = { width_mm = 6.5, thickness_mm = 0.5, fill = 0.5 }
[sidewall]
material = "abs"
width_mm = 8
[stance]
width_mm = 540
foot_length_mm = 100
foot_width_mm = 110
)";

} // namespace

TEST_CASE("the search for the weakest place walks along a band narrower than its steps") {
    StrengthOptions options;
    options.cases = {"full-twist"};
    const Board board = read_board_text({banded, "test.toml", ""}, load_material_library());
    const StrengthResult result = run_strength(board, options);
    REQUIRE(result.cases.size() == 1);
    REQUIRE(result.cases.front().breaks);
    const FailurePlace& breaks = *result.cases.front().breaks;
    // It stood at the corner of bar and outline, x = -550 mm, where no bar closes.
    CHECK(breaks.place.at.x() < -0.552);
    CHECK(breaks.resolved);
}
