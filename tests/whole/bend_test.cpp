#include <filesystem>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string bent_biax = "examples/nh-157-biax/board.toml";

} // namespace

TEST_CASE("solve --bend tells forces, tangents, flattening and twist by travel, and writes them") {
    const TemporaryFolder folder;
    const std::string out = folder.path() / "bent";
    const Run run = run_program({"solve", bent_biax, "--bend", "20,40", "--case", "nose-flex",
                                 "--case", "nose-twist", "--degree", "2", "--out", out});
    REQUIRE(run.status == 0);
    CHECK_THAT(run.out, Contains("nose-flex at 20 mm") && Contains("nose-twist bent 40 mm") &&
                            Contains("flattening"));
    const Json result = Json::parse(content(out + "/result.json"));
    CHECK(result["shape"] == "rest");
    CHECK(result["bend_mm"] == Json::array({20.0, 40.0}));
    const Json& flex = result["cases"]["nose-flex at 40 mm"];
    CHECK(flex["force"]["unit"] == "N");
    CHECK(flex["tangent"]["unit"] == "N/mm");
    CHECK(flex["flattening"]["unit"] == "mm");
    const double force = flex["force"]["value"];
    CHECK(flex["stiffness"]["value"].get<double>() == Approx(force / 40));
    CHECK(flex["force"]["error"].get<double>() > 0);
    CHECK(result["cases"]["nose-twist bent 40 mm"]["stiffness"]["value"].get<double>() >
          result["cases"]["nose-twist"]["stiffness"]["value"].get<double>());
    for (const char* file : {"bend.csv", "nose-flex at 20 mm.vtu", "nose-flex at 40 mm.vtu"}) {
        CHECK(std::filesystem::exists(out + "/" + file));
    }
}

TEST_CASE("a travel that no board reaches is an error with the travel reached, nothing written") {
    const TemporaryFolder folder;
    const std::string out = folder.path() / "far";
    const Run run = run_program({"solve", bent_biax, "--bend", "900", "--case", "centre-flex",
                                 "--degree", "2", "--out", out});
    CHECK(run.status == 3);
    CHECK_THAT(run.err, Contains("centre-flex") && Contains("beyond a travel of"));
    CHECK_FALSE(std::filesystem::exists(out + "/result.json"));
    CHECK(std::filesystem::is_empty(out));
    for (const char* wrong : {"0", "-5", "1200", "some", "30,,"}) {
        CHECK(run_program({"solve", bent_biax, "--bend", wrong}).status == 2);
    }
}

TEST_CASE("beside a travel that no board reaches the others are shown, and nothing is written") {
    const TemporaryFolder folder;
    const std::string out = folder.path() / "far";
    const std::vector<std::string> asked{"--bend",     "900,20",   "--case", "nose-flex", "--case",
                                         "nose-twist", "--degree", "2",      "--size-mm", "80"};
    const auto run = [&](std::vector<std::string> words) {
        words.insert(words.end(), asked.begin(), asked.end());
        return run_program(words);
    };
    const Run text = run({"solve", bent_biax, "--out", out});
    CHECK(text.status == 3);
    CHECK(std::filesystem::is_empty(out));
    CHECK_THAT(text.out, Contains("nose-twist bent 20 mm") && Contains("nose-flex at 900 mm") &&
                             Contains("beyond a travel of"));
    CHECK_THAT(text.err, Contains("bending: nose-flex: ") && Contains("beyond a travel of"));
    const Run json = run({"solve", bent_biax, "--json"});
    CHECK(json.status == 3);
    const Json result = Json::parse(json.out);
    CHECK(result["bend_mm"] == Json::array({20.0}));
    CHECK(result["cases"].contains("nose-flex at 20 mm"));
    CHECK_THAT(result["skipped"]["nose-twist bent 900 mm"], Contains("beyond a travel of"));
    const Run both = run({"compare", bent_biax, "--set", "core.thickness_scale=1.1", "--json"});
    CHECK(both.status == 3);
    const Json compared = Json::parse(both.out);
    CHECK(compared["numbers"].contains("nose-twist bent 20 mm"));
    CHECK(compared["skipped"][1].contains("nose-flex at 900 mm"));
    const Run strength = run({"strength", bent_biax});
    CHECK(strength.status == 3);
    CHECK_THAT(strength.out, Contains("highest index at the bent board's own stress") &&
                                 Contains("nose-flex at 900 mm skipped: "));
}

TEST_CASE("a tip steeper than a plate can follow is an error of the board file") {
    const TemporaryFolder folder;
    const std::string file = folder.file(
        "steep.toml", "format = 1\nname = \"s\"\n[planform]\nrectangle_mm = [600, 60]\n"
                      "[[layer]]\nname = \"a\"\nmaterial = \"steel\"\nthickness_mm = 2\n"
                      "[rest_shape]\nz_mm = [[-300, 0], [250, 0], [300, 70]]\n");
    const Run run = run_program({"check", file});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("rest_shape.z_mm") && Contains("steep.toml:"));
}

TEST_CASE("a suite bends its boards, and its limits hold the bent numbers") {
    const TemporaryFolder folder;
    const std::string suite = folder.file(
        "suite.toml", "format = 1\nname = \"bent\"\nboards = [\"" + std::string(source_dir) + "/" +
                          bent_biax +
                          "\"]\ncases = [\"nose-flex\", \"nose-twist\"]\nbend_mm = [30]\n"
                          "[limits]\n\"nose-twist bent 30 mm\" = { min = 1000 }\n");
    const Run run =
        run_program({"batch", suite, "--degree", "2", "--out", (folder.path() / "out").string()});
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("nose-twist bent 30 mm"));
}
