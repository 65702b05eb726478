#include <cmath>
#include <tuple>

#include <catch2/catch.hpp>

#include "io/batch/suite.hpp"
#include "mesh/board/error.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string head = "format = 1\nname = \"s\"\nboards = [\"*.toml\"]\ncases = [\"all\"]\n";

std::string problems_of(const std::string& path) {
    return complaint_of([&] { (void)read_suite(path); });
}

} // namespace

TEST_CASE("a suite's map is every angle with every hardness and force, in SI") {
    const TestFolder folder("suite-map");
    std::ignore = folder.write("a.toml", "");
    const Suite suite = read_suite(
        folder.write("s.suite", head + "[edge]\nangle_deg = [30, 60]\nforce_N = [800, 1600]\n"
                                       "hardness_Npmm3 = [0.5, 5.0]\n"));
    REQUIRE(suite.edge.size() == 8);
    CHECK(suite.edge[0].tilt == Approx(30 * M_PI / 180));
    CHECK(suite.edge[0].force == 800);
    CHECK(suite.edge[0].hardness == Approx(0.5e9)); // 1 N/mm3 = 1e9 N/m3
    CHECK(suite.edge[1].force == 1600);             // force runs fastest, then hardness
    CHECK(suite.edge[2].hardness == Approx(5e9));
    CHECK(suite.edge[4].tilt == Approx(60 * M_PI / 180));
    CHECK_FALSE(suite.edge[0].bent);
    CHECK(read_suite(folder.write("t.suite", head)).edge.empty());
    const Suite bent = read_suite(folder.write(
        "u.suite", head + "[edge]\nangle_deg = [30]\nforce_N = [800]\nhardness_Npmm3 = [5]\n"
                          "bent = true\n"));
    CHECK(bent.edge.at(0).bent);
}

TEST_CASE("a wrong map is refused with its places: ranges, doubles, unknown keys") {
    const TestFolder folder("suite-bad-map");
    std::ignore = folder.write("a.toml", "");
    const std::string found = problems_of(
        folder.write("s.suite", head + "[edge]\nangle_deg = [5, 45]\nforce_N = [800, 800]\n"
                                       "hardness_Npmm3 = []\nhardnes = 1\n"));
    CHECK_THAT(found, Contains(":6:14") && Contains("from 10 to 80"));
    CHECK_THAT(found, Contains(":7:") && Contains("every value once"));
    CHECK_THAT(found, Contains(":8:") && Contains("at least one"));
    CHECK_THAT(found, Contains(":9:") && Contains("hardness_Npmm3"));
}

TEST_CASE("all problems of a suite are told at once, with nearest names") {
    const TestFolder folder("suite-bad");
    std::ignore = folder.write("a.toml", "");
    const std::string found = problems_of(folder.write(
        "s.suite", "format = 2\nboards = [\"b/*.toml\"]\ncases = [\"nose-twst\"]\n"
                   "[[variant]]\nname = \"a\"\nset = { \"core.thickness_scale\" = 1.03 }\n"
                   "[[variant]]\nname = \"a\"\nset = { }\n"
                   "[limits]\n\"nose-twist\" = { min = 5, max = 3 }\n"
                   "[drift]\npercent = 0.5\n"));
    for (const char* part :
         {":1:10", "name", "no file fits \"b/*.toml\"", "nose-twist", "no other variant has",
          "a table of design values", "from min up", "baseline"}) {
        CHECK_THAT(found, Contains(part));
    }
}

TEST_CASE("boards are found once each and sorted, whatever the patterns' order") {
    const TestFolder folder("suite-boards");
    for (const char* name : {"b.toml", "a.toml", "c.txt"}) {
        std::ignore = folder.write(name, "");
    }
    std::filesystem::create_symlink("nowhere", folder.path() + "/gone.toml"); // a row that fails
    const Suite suite = read_suite(folder.write(
        "s.suite",
        "format = 1\nname = \"s\"\nboards = [\"b.*\", \"*.toml\"]\ncases = [\"full-twist\"]\n"));
    REQUIRE(suite.boards.size() == 3);
    CHECK_THAT(suite.boards[0], Catch::EndsWith("a.toml"));
    CHECK_THAT(suite.boards[1], Catch::EndsWith("b.toml"));
    CHECK_THAT(suite.boards[2], Catch::EndsWith("gone.toml"));
    CHECK(suite.cases == std::vector<std::string>{"full-twist"});
    CHECK(suite.variants.size() == 1); // the board as drawn
    CHECK(suite.variants[0].changes.empty());
}
