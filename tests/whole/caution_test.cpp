#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/write/caution.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("every verb that predicts shows the caution in its help, its text and its JSON") {
    const TemporaryFolder folder;
    const std::string coupon = "examples/coupon-sandwich/board.toml";
    const std::string board = "examples/nh-157-biax/board.toml";
    const std::string goal = folder.file(
        "goal.toml", "[[target]]\nnumber = \"centre-flex\"\npercent = 0\n[[free]]\nvalue = "
                     "\"core.thickness_scale\"\nmin = 0.9\nmax = 1.1\n");
    const std::string bench =
        folder.file("bench.toml", "[[reading]]\nnumber = \"centre-flex\"\nvalue = 10\nsd = 1\n"
                                  "[[free]]\nvalue = \"core.thickness_scale\"\n");
    const std::string out = (folder.path() / "new.toml").string();
    const std::vector<std::vector<std::string>> runs{
        {"solve", coupon, "--case", "centre-flex"},
        {"compare", coupon, coupon},
        {"edge", board, "--angle", "45", "--degree", "2"},
        {"sense", coupon, "--of", "centre-flex"},
        {"scatter", coupon, "--of", "centre-flex", "--samples", "8"},
        {"match", coupon, goal, "--out", out},
        {"calibrate", coupon, bench}};
    for (std::vector<std::string> run : runs) {
        INFO(run.front());
        CHECK_THAT(run_program({run.front(), "--help"}).out, Contains("no proof of strength"));
        CHECK_THAT(run_program(run).out, Contains("no proof of strength"));
        run.emplace_back("--json");
        CHECK(nlohmann::json::parse(run_program(run).out)["caution"] == caution);
    }
}
