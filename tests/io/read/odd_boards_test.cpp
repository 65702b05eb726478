// Boards that once came out wrong without a word, or at which a later step failed.
#include <cmath>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/write/json_parts.hpp"
#include "io/write/limits.hpp"
#include "mesh/board/error.hpp"
#include "mesh/mesher.hpp"
#include "solver/study.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string sheet = "[[layer]]\nname = \"b\"\nmaterial = \"uhmwpe\"\nthickness_mm = 5\n";

Board plate(const std::string& planform, const std::string& layers = sheet) {
    return read_text_board("format = 1\nname = \"p\"\n[planform]\n" + planform + layers);
}

const std::string rectangle = "rectangle_mm = [300, 40]\nrunning_length_mm = 240\n";
const std::string taper =
    "polygon_mm = [[-700, -20], [-520, -96], [520, -150], [700, -60], [700, 60], [520, 150], "
    "[-520, 96], [-700, 20]]\nrunning_length_mm = 1000\n";

} // namespace

TEST_CASE("a contact line without width is refused at the running length") {
    const std::string diamond = "polygon_mm = [[-780, 0], [0, -140], [780, 0], [0, 140]]\n";
    CHECK_THROWS_WITH(plate(diamond + "running_length_mm = 1560\n"),
                      Contains("board.toml:5:") && Contains("at least 1 mm wide"));
    CHECK_NOTHROW(plate(diamond + "running_length_mm = 1500\n"));
}

TEST_CASE("layers that leave part of the board bare are refused, with the place") {
    const std::string base = sheet + "zone = { x_mm = [-150, 40] }\n";
    std::string nose = base;
    nose.replace(nose.find("\"b\""), 3, "\"n\"");
    nose.replace(nose.find("[-150, 40]"), 10, "[40, 150]");
    CHECK_THROWS_WITH(plate(rectangle, base),
                      Contains("no layer lies at x = ") && Contains("board.toml:6:"));
    CHECK_NOTHROW(plate(rectangle, base + nose));
    const std::string middle = sheet + "zone = { outline_mm = [0, 12] }\n";
    CHECK_THROWS_WITH(plate(rectangle, middle), Contains("no layer lies at x = "));
    CHECK_NOTHROW(plate(rectangle, sheet + "zone = { outline_mm = [0, 20.5] }\n"));
}

TEST_CASE("straight sides have no sidecut radius: null and a reason, and no limit reads a number") {
    const Board board = plate(taper, sheet + "[limits]\n\"sidecut-radius\" = { max = 12 }\n");
    const OutlineFigures outline = outline_figures(board);
    const Json json = json_of(outline)["sidecut_radius"];
    CHECK(json["left"]["value"].dump() == "null");
    CHECK_THAT(json["right"]["reason"].get<std::string>(), Contains("straight"));
    const auto verdicts = judge(board.limits, plain_numbers(board, outline, board_mass(board)));
    CHECK(verdicts.front().exceeded); // no circle of any radius is as straight
}

TEST_CASE(
    "feet as wide as a coupon stand on it, and a board beside the axis is told where feet lie") {
    CHECK_NOTHROW(plate(rectangle, sheet + "[stance]\nwidth_mm = 120\nfoot_length_mm = 20\n"
                                           "foot_width_mm = 40\n"));
    CHECK_THROWS_WITH(plate(rectangle, sheet + "[stance]\nwidth_mm = 120\nfoot_length_mm = 20\n"
                                               "foot_width_mm = 40.01\n"),
                      Contains("stance.foot_width_mm: found 40.01; accepted: up to 40 (mm): the "
                               "patches' middles lie on y = 0"));
}

// Each time a round of the mesher gave up a part of a stretch the stretch stayed, and the board was
// refused after forty rounds ("no good cut leads on from the end of a line").
TEST_CASE("a long ribbon across zones, a band and a slanted strip of fabric is meshed") {
    const std::string side = "[[layer]]\nname = \"ribbon\"\nfabric = \"carbon-ud-150\"\n"
                             "mirror = true\nzone = { from_mm = [-413, 20], to_mm = [413, 70], "
                             "width_mm = 12 }\n";
    const Board board = plate(
        "running_length_mm = 1239\nwaist_width_mm = 243\nnose_width_mm = 269\n"
        "tail_width_mm = 268.66\nnose_length_mm = 114\ntail_length_mm = 222.25281\n"
        "nose_fullness = 0.53\ntail_fullness = 0.61\nwaist_x_mm = 29.73\n"
        "[core]\nthickness_mm = [[-852.7528, 2.03], [-606.971, 2.41], [-309.75, 6.8], "
        "[-5, 7.66], [293.75, 5.77], [603.5, 2.66], [732.5, 1.85]]\ninterpolation = \"linear\"\n"
        "resolve = true\nstrips = [{ material = \"bamboo\", width_mm = 8 }, "
        "{ material = \"ash\", width_mm = 9.55699 }]\n",
        "[[layer]]\nname = \"rim\"\nfabric = \"biax-680\"\n"
        "zone = { outline_mm = [13.14112, 50.18533] }\n"
        "[[layer]]\nname = \"slanted\"\nfabric = \"biax-680\"\n"
        "zone = { from_mm = [-509.12, -93], to_mm = [-223.2, -72], width_mm = 29 }\n"
        "[[layer]]\nname = \"core\"\ncore = true\n"
        "[[layer]]\nname = \"feet\"\nfabric = \"triax-680\"\nzones = [{ x_mm = [-217.2, -10], "
        "y_mm = [10, 40] }, { x_mm = [10, 231.4], y_mm = [-40, 50] }]\n" +
            side +
            "[stance]\nwidth_mm = 500\nsetback_mm = 10\nfoot_length_mm = 90\nfoot_width_mm = "
            "100\n");
    const Mesh mesh = mesh_planform(board, study_mesh_options(board, {}));
    CHECK(mesh.min_scaled_jacobian > 0.1);
}
