#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/write/strength_report.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string board = "examples/nh-157-biax/board.toml";

} // namespace

TEST_CASE("vrid strength tells load, travel, place, ply and mode, the caution first and last") {
    const Run text = run_program({"strength", board, "--case", "nose-flex", "--at", "200"});
    CHECK(text.status == 0);
    CHECK(text.out.starts_with("Caution: "));
    const std::size_t again = text.out.rfind("Caution: ");
    CHECK(again > 500);
    CHECK_THAT(text.out.substr(again), Contains("Test."));
    CHECK_THAT(text.out, Contains("nose-flex first") && Contains("breaks") &&
                             Contains("the index is") && Contains("NOT JUDGED"));
    const Run json = run_program({"strength", board, "--case", "nose-flex", "--json"});
    const auto all = nlohmann::json::parse(json.out);
    CHECK(all["caution"] == strength_caution());
    CHECK(all["caution_again"] == strength_caution());
    const auto& first = all["strength"]["nose-flex"]["first"];
    CHECK(first["unit"] == "N");
    CHECK(first["value"].get<double>() > 100);
    CHECK(first["error"].get<double>() > 0);
    for (const char* key : {"travel", "x_mm", "y_mm", "layer", "ply", "z_mm", "mode", "at_clamp",
                            "sign", "resolved"}) {
        CAPTURE(key);
        CHECK(first.contains(key));
    }
    CHECK(all["strength"]["nose-flex"]["breaks"]["value"] >= first["value"]);
    CHECK(all["strength"]["nose-flex"]["next"].size() == 3);
}

TEST_CASE("vrid strength refuses what it does not know, and a case that needs what is not there") {
    const Run wrong = run_program({"strength", board, "--criterion", "tsai-wu"});
    CHECK(wrong.status == 2);
    CHECK_THAT(wrong.err, Contains("tsai-hill or max-stress"));
    const Run modes = run_program({"strength", board, "--case", "free-modes"});
    CHECK(modes.status == 2);
    CHECK_THAT(modes.err, Contains("static case"));
    CHECK(run_program({"strength", board, "--at", "-5"}).status == 2);
}

TEST_CASE("a suite that asks for strength, or has a limit on it, tells it for every job") {
    const TemporaryFolder folder;
    const std::string boards = std::string(VRID_SOURCE_DIR) + "/examples/nh-157-biax/board.toml";
    const std::string suite =
        folder.file("suite.toml", "format = 1\nname = \"s\"\nboards = [\"" + boards +
                                      "\"]\ncases = [\"nose-flex\"]\n[limits]\n"
                                      "\"strength.nose-flex\" = { min = 1e6 }\n");
    const std::string out = (folder.path() / "out").string();
    const Run run = run_program({"batch", suite, "--out", out});
    CHECK(run.status == 1); // no board bears that
    CHECK_THAT(run.out, Contains(strength_caution()));
    const auto all = nlohmann::json::parse(content(folder.path() / "out/summary.json"));
    CHECK(all["strength_caution"] == strength_caution());
    const auto& numbers = all["rows"][0]["numbers"];
    const Run alone = run_program({"strength", board, "--case", "nose-flex", "--json"});
    const auto strength = nlohmann::json::parse(alone.out)["strength"]["nose-flex"];
    CHECK(numbers["strength.nose-flex"]["value"].get<double>() ==
          Approx(strength["first"]["value"].get<double>()));
    CHECK(numbers["strength.nose-flex.breaks"]["value"].get<double>() ==
          Approx(strength["breaks"]["value"].get<double>()));
    CHECK(numbers["strength.nose-flex.travel"]["unit"] == "mm");
    CHECK(all["rows"][0]["limits"]["strength.nose-flex"]["exceeded"] == true);
}
