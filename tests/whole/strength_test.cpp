#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/write/strength_report.hpp"
#include "tests/places.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string weakest_board = "examples/nh-157-biax/board.toml";

} // namespace

TEST_CASE("vrid strength tells load, travel, place, ply and mode, the caution first and last") {
    const Run text = run_program({"strength", weakest_board, "--case", "nose-flex", "--at", "200"});
    CHECK(text.status == 0);
    CHECK(text.out.starts_with("Caution: "));
    const std::size_t again = text.out.rfind("Caution: ");
    CHECK(again > 500);
    CHECK_THAT(text.out.substr(again), Contains("Test."));
    CHECK_THAT(text.out, Contains("nose-flex first") && Contains("breaks") &&
                             Contains("the index is") && Contains("NOT JUDGED"));
    const Run json = run_program({"strength", weakest_board, "--case", "nose-flex", "--json"});
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

TEST_CASE("a load of nothing has no bar: the board is over the limit before any") {
    const TemporaryFolder folder;
    const auto ply = [](const char* name, int turn) {
        return "[[layer]]\nname = \"" + std::string(name) +
               "\"\nfabric = \"cross\"\nangle_deg = " + std::to_string(turn) + "\n";
    };
    const std::string board = folder.file(
        "strip.toml",
        "format = 1\nname = \"strip\"\n[planform]\nrectangle_mm = [300, 40]\n" + ply("one", 0) +
            ply("two", 90) + ply("three", 0) +
            "[fabric.cross]\nplies = [{ ply_material = \"e-glass-epoxy-ud-45\", angle_deg = 0, "
            "ply_thickness_mm = 0.5 }]\n[cure]\nstress_free_C = 290\ncold_C = -90\n");
    const Run run = run_program({"strength", board, "--cold", "--case", "centre-flex"});
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("centre-flex first") && Contains("0.000 N") &&
                            Contains("over the limit before any load") && !Contains("nan"));
}

TEST_CASE("vrid strength refuses what it does not know, and a case that needs what is not there") {
    const Run wrong = run_program({"strength", weakest_board, "--criterion", "tsai-wu"});
    CHECK(wrong.status == 2);
    CHECK_THAT(wrong.err, Contains("tsai-hill or max-stress"));
    const Run modes = run_program({"strength", weakest_board, "--case", "free-modes"});
    CHECK(modes.status == 2);
    CHECK_THAT(modes.err, Contains("static case"));
    CHECK(run_program({"strength", weakest_board, "--at", "-5"}).status == 2);
}

TEST_CASE("a suite that asks for strength, or has a limit on it, tells it for every job") {
    const TemporaryFolder folder;
    const std::string boards = std::string(source_dir) + "/examples/nh-157-biax/board.toml";
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
    const Run alone = run_program({"strength", weakest_board, "--case", "nose-flex", "--json"});
    const auto strength = nlohmann::json::parse(alone.out)["strength"]["nose-flex"];
    CHECK(numbers["strength.nose-flex"]["value"].get<double>() ==
          Approx(strength["first"]["value"].get<double>()));
    CHECK(numbers["strength.nose-flex.breaks"]["value"].get<double>() ==
          Approx(strength["breaks"]["value"].get<double>()));
    CHECK(numbers["strength.nose-flex.travel"]["unit"] == "mm");
    CHECK(all["rows"][0]["limits"]["strength.nose-flex"]["exceeded"] == true);
}

TEST_CASE(
    "vrid strength --edge tells the index, its place and mode in every condition, the caution "
    "first and last, and refuses what has no edge") {
    const Run text = run_program({"strength", weakest_board, "--edge", "--angle", "45,60",
                                  "--degree", "2", "--size-mm", "60", "--threads", "1"});
    CHECK(text.status == 0);
    CHECK(text.out.starts_with("Caution: "));
    CHECK(text.out.rfind("Caution: ") > 500);
    CHECK_THAT(text.out, Contains("edge 45 deg 800 N 0.5 N/mm3 first") &&
                             Contains("edge 60 deg 800 N") && Contains("at the clamp") &&
                             Contains("away from feet and snow") && Contains("NOT JUDGED") &&
                             !Contains("nose-flex"));
    const Run json = run_program({"strength", weakest_board, "--edge", "--angle", "60",
                                  "--hardness", "5", "--degree", "2", "--size-mm", "60",
                                  "--threads", "1", "--to-failure", "--json"});
    const auto all = nlohmann::json::parse(json.out);
    CHECK(all["caution"] == strength_caution());
    CHECK(all["edge_motion"] == "small");
    REQUIRE(all["edge"].size() == 1);
    const auto& one = all["edge"][0];
    CHECK(one["angle_deg"] == 60);
    CHECK(one["hardness"] == 5);
    CHECK(one["first"]["index"].get<double>() >= one["away"]["index"].get<double>());
    for (const char* key : {"error", "x_mm", "y_mm", "layer", "ply", "ply_deg", "z_mm", "mode",
                            "at_clamp", "at_outline", "resolved"}) {
        CAPTURE(key);
        CHECK(one["first"].contains(key));
    }
    const auto& failure = one["to_failure"]["first"];
    CHECK(failure["unit"] == "N");
    CHECK(failure["place"]["index"].get<double>() == Approx(1).epsilon(0.01));
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "edge").string();
    CHECK(run_program({"strength", weakest_board, "--edge", "--angle", "45", "--degree", "2",
                       "--size-mm", "60", "--out", out})
              .status == 0);
    CHECK(run_program({"report", out}).status == 0);
    CHECK_THAT(content(folder.path() / "edge/report.html"),
               Contains("On its edge") && Contains("edge 45 deg 800 N 0.5 N/mm3"));
    const Run without = run_program({"strength", weakest_board, "--angle", "60"});
    CHECK(without.status == 2);
    CHECK_THAT(without.err, Contains("give --edge"));
    CHECK(run_program({"strength", weakest_board, "--edge", "--at", "100"}).status == 2);
    CHECK(run_program({"strength", weakest_board, "--edge", "--bent", "--flat"}).status == 2);
    const Run coupon = run_program({"strength", "examples/coupon-triax/board.toml", "--edge"});
    CHECK(coupon.status == 2);
    CHECK_THAT(coupon.err, Contains("[stance]"));
}

TEST_CASE("a strength outside its limit stands first on its page, with what linear theory does not "
          "cover") {
    const TemporaryFolder folder;
    const std::string board =
        folder.file("limited.toml", content(std::string(source_dir) + "/" + weakest_board) +
                                        "\n[limits]\n\"strength.nose-flex\" = { min = 5000 }\n"
                                        "\"strength.tail-flex\" = { min = 1 }\n");
    const std::string out = (folder.path() / "out").string();
    CHECK(run_program({"strength", board, "--case", "nose-flex", "--out", out}).status == 1);
    REQUIRE(run_program({"report", out}).status == 0);
    const std::string page = content(out + "/report.html");
    const std::string looks = page.substr(0, page.find("id=\"overview\""));
    CHECK_THAT(looks, Contains("Outside its limits (1)") && Contains("limit at least 5000") &&
                          !Contains("Nothing: no failure"));
    CHECK_THAT(looks, Contains("linear theory is stretched far"));
    CHECK_THAT(looks, Contains("not judged, as their numbers are not here: strength.tail-flex"));
}

TEST_CASE("limits on strength are held against loads without the stress out of the press only") {
    const TemporaryFolder folder;
    const std::string board =
        folder.file("cured.toml", content(std::string(source_dir) + "/" + weakest_board) +
                                      "\n[cure]\nstress_free_C = 80\n"
                                      "[limits]\n\"strength.nose-flex\" = { min = 5000 }\n");
    const std::vector<std::string> words{"strength", board, "--case",    "nose-flex",
                                         "--degree", "2",   "--size-mm", "80"};
    std::vector<std::string> cold = words;
    cold.emplace_back("--cold");
    CHECK(run_program(words).status == 1);
    const Run run = run_program(cold);
    CHECK(run.status == 0);
    CHECK_THAT(run.out,
               Contains("limits on strength are not judged here") && !Contains("EXCEEDED"));
}
