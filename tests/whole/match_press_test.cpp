// A board whose two biaxes are no mirror image of each other leaves the press twisted.
#include <cmath>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Json = nlohmann::json;

TEST_CASE("match turns the cloths until the board leaves the press without a twist, and says what "
          "that costs in nose-twist") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "straight.toml").string();
    const Run run =
        run_program({"match", "examples/straight-from-the-press/board.toml",
                     "examples/straight-from-the-press/goal.toml", "--out", out, "--json"});
    REQUIRE(run.status == 0);
    const Json json = Json::parse(run.out);
    CHECK(json["met"] == true);
    CHECK(std::abs(json["targets"][0]["before"]["value"].get<double>()) > 0.5); // degrees
    const double after = json["targets"][0]["after"]["value"];
    CHECK(std::abs(after) <= 0.05);
    const Json& cost = json["others"]["nose-twist"];
    const double was = cost["before"]["value"];
    const double is = cost["after"]["value"];
    CHECK(is < was);
    CHECK(is > 0.98 * was); // a few degrees of the cloth
    // the file gives what was promised
    const Run solved =
        run_program({"solve", out, "--case", "release", "--case", "nose-twist", "--json"});
    const Json cases = Json::parse(solved.out)["cases"];
    CHECK(cases["release"]["twist"]["value"].get<double>() == Approx(after).margin(1e-4));
    CHECK(cases["nose-twist"]["stiffness"]["value"].get<double>() == Approx(is).epsilon(1e-4));
}
