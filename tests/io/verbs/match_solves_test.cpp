// What match solves on its way: whose warnings they are, and limits held against the answer.
#include "io/verbs/match_solves.hpp"

#include <sstream>

#include <catch2/catch.hpp>

#include "io/design/read_goal.hpp"
#include "io/read/read_edge_condition.hpp"
#include "tests/places.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

// A patch whose side leaves the outline's corner at four degrees: the mesh does not follow it.
const std::string grazed =
    "format = 1\nname = \"plank\"\n[planform]\nrectangle_mm = [300, 40]\n"
    "running_length_mm = 240\n[core]\ninterpolation = \"linear\"\n"
    "thickness_mm = [[-150, 7.0], [150, 7.0]]\n"
    "strips = [ { material = \"poplar\", width_mm = 12 } ]\n[[layer]]\nname = \"core\"\n"
    "core = true\n[[layer]]\nname = \"patch\"\nmaterial = \"aluminium\"\nthickness_mm = 0.5\n"
    "zone = { polygon_mm = [[-150, -20], [150, 1], [150, 20], [-150, 20]] }\n"
    "[limits]\nmass = { max = 0.01 }\n\"free-modes mode 2\" = { min = 1 }\n"
    "\"edge 45 deg 800 N peak\" = { max = 1 }\n";

} // namespace

TEST_CASE("a warning of match names the board's file, in a family the size, too") {
    const TemporaryFolder folder;
    const std::string file = folder.file("board.toml", grazed);
    const std::string goal = folder.file("goal.toml", "[[target]]\nnumber = \"centre-flex\"\n"
                                                      "percent = 0.5\nwithin_percent = 1\n"
                                                      "[[free]]\nvalue = \"core.thickness_mm\"\n"
                                                      "min = 5\nmax = 9\n");
    const MaterialLibrary library = load_material_library();
    const auto told = [&](const std::string& size) {
        MatchInput input{library, board_text(file), {}, {}, {}, "", 1, size};
        input.board = read_board_text(input.source, library);
        input.goal = read_goal(goal, input.board);
        input.others.resize(input.goal.targets.size());
        std::ostringstream out;
        std::ostringstream err;
        Console console{out, err, nullptr, [] { return false; }};
        match_board(input, console);
        return err.str();
    };
    CHECK_THAT(told(""), Contains("board.toml: warning: ") && Contains("'patch'"));
    CHECK_THAT(told("145"),
               Contains("board.toml, size 145: warning: ") && !Contains("board.toml: warning: "));
}

TEST_CASE("limits are held against numbers known, numbers without a mesh, and numbers still to be "
          "solved") {
    const TemporaryFolder folder;
    const Board board = read_board(folder.file("board.toml", grazed), load_material_library());
    Settings settings;
    settings.threads = 1;
    const Verdicts solved = held_limits(board, {}, {}, settings);
    REQUIRE(solved.size() == 3);
    CHECK_FALSE(solved[0].found); // a condition of its own is not computed
    REQUIRE(solved[1].found);
    CHECK(solved[1].name == "free-modes mode 2");
    CHECK(solved[1].found->value > 1);
    CHECK(solved[1].found->error > 0);
    CHECK_FALSE(solved[1].exceeded);
    CHECK(solved[2].exceeded);
    CHECK(exceeded(solved).size() == 1);
    const Verdicts known =
        held_limits(board, {{"free-modes mode 2", {0.5, 0, Unit::frequency}}}, {}, settings);
    CHECK(known[1].found->value == 0.5); // not solved again
    CHECK(known[1].exceeded);
}

TEST_CASE("a limit on the edge is held in the goal's condition, else in the usual one") {
    Board board = read_board(std::string(source_dir) + "/" + querwind, load_material_library());
    board.limits = {{"edge.peak", {{}, 1}}};
    Settings coarse;
    coarse.degree = 2;
    coarse.max_size = 0.15;
    const auto peak = [&](const Goal& goal) {
        return held_limits(board, {}, goal, coarse).front().found.value().value;
    };
    Goal heavy;
    heavy.edge = default_edge_condition();
    heavy.edge->force *= 2;
    const EdgeResult edge = Session(board, coarse).edge({default_edge_condition(), *heavy.edge});
    const auto wanted = [&edge](std::size_t i) {
        return to_bench(edge.conditions[i].numbers.front().quantity).value;
    };
    REQUIRE(edge.conditions[0].numbers.front().name == "peak");
    CHECK(peak({}) == Approx(wanted(0)).epsilon(1e-9));
    CHECK(peak(heavy) == Approx(wanted(1)).epsilon(1e-9));
}
