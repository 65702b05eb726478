// vrid lot, run as a plant's engineer runs it.
#include <filesystem>
#include <fstream>
#include <sstream>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string lot = "examples/plant-lot/readings.csv";
const std::string rig = "examples/plant-lot/rig.toml";

bool has(const Json& list, const std::string& word) {
    return std::find(list.begin(), list.end(), Json(word)) != list.end();
}

} // namespace

TEST_CASE("the example lot tells its story: a wrong reading, a wrong board, a drift") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "lot").string();
    const Run run = run_program({"lot", querwind, lot, "--rig", rig, "--out", out});
    INFO(run.out << run.err);
    CHECK(run.status == 1);
    const Json json = Json::parse(content(out + "/lot.json"));
    CHECK(json["format"] == 1);
    CHECK_THAT(json["caution"].get<std::string>(), Contains("no proof of strength"));
    CHECK(json["mean"]["p"].get<double>() > 0.05); // nothing had moved before the change
    const std::string story = content(std::string(source_dir) + "/examples/plant-lot/README.md");
    std::istringstream told(story.substr(0, story.find("One reading is a slip")));
    int lines = 0;
    for (std::string line; std::getline(told, line);) {
        if (line.rfind("  ", 0) == 0 && line.rfind("    ", 0) != 0) { // what it prints
            CHECK_THAT(run.out, Contains(line));
            ++lines;
        }
    }
    CHECK(lines == 7);
    REQUIRE(json["outliers"].size() == 2);
    CHECK(json["outliers"][0]["serial"] == "K1019");
    CHECK(json["outliers"][0]["reading"] == "nose-twist");
    CHECK(json["outliers"][1]["serial"] == "K1044");
    CHECK(json["outliers"][1].contains("value"));
    const Json& change = json["change"];
    REQUIRE(change.is_object());
    CHECK(change["p"].get<double>() < 0.002);
    const std::string planted = "fabric.triax-740.fibre_volume_fraction";
    CHECK((change["value"] == planted || has(change["rivals"], planted)));
    CHECK(change["first"].get<std::string>() > "K1040");
    CHECK(change["first"].get<std::string>() < "K1072");
    CHECK_THAT(run.out, Contains("K1019 does not belong: nose-twist alone: measure again"));
    const Run again = run_program({"lot", querwind, lot, "--rig", rig, "--json"});
    CHECK(again.out == content(out + "/lot.json"));
    REQUIRE(run_program({"report", out}).status == 0);
    const std::string page = content(out + "/report.html");
    for (const char* shown : {">K1001<", ">batch.resin<", "nose-twist, predicted and found",
                              "How far values moved, in tolerances"}) {
        CHECK_THAT(page, Contains(shown));
    }
    const auto refused = [&](const Json& damaged, const std::string& why) {
        std::ofstream(out + "/lot.json") << damaged;
        const Run report = run_program({"report", out});
        CHECK(report.status == 2);
        CHECK_THAT(report.err, Contains("lot.json: is damaged: ") && Contains(why));
    };
    Json damaged = json;
    damaged["strips"]["outliers"][0] = 91; // of 90 boards
    refused(damaged, "a board is named that no strip has");
    damaged = json;
    damaged["strips"]["numbers"][0]["ewma"].erase(3);
    refused(damaged, "another length than its boards");
    damaged = json;
    damaged["findings"] = nullptr;
    refused(damaged, "'findings' is no list");
    damaged = json;
    damaged["shifts"][0]["shift"] = nullptr;
    refused(damaged, "'shift' is no number");
}

TEST_CASE("lot refuses what it cannot read, each with its place, and --fitted its inputs") {
    const TemporaryFolder folder;
    std::string text = "serial,mass,nose-twst\n";
    for (int i = 0; i < 9; ++i) {
        text.append("A").append(std::to_string(i)).append(",3.08,9.5\n");
    }
    const std::string file = folder.file("lot.csv", text);
    const Run run = run_program({"lot", querwind, file});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("lot.csv:1:13: ") && Contains("did you mean 'nose-twist'"));
    const Run fitted = run_program({"lot", querwind, file, "--fitted", file});
    CHECK(fitted.status == 2);
    CHECK_THAT(fitted.err, Contains("--fitted"));
}

TEST_CASE("the board of a lot says by name and first line that it is one, and of which boards") {
    const TemporaryFolder folder;
    const std::string coupon = std::string(source_dir) + "/examples/coupon-triax/board.toml";
    const Run check = run_program({"check", coupon, "--json"});
    const Json nominal = Json::parse(check.out)["boards"][0];
    const double mass = nominal["mass"]["value"];
    const double thickness = nominal["stations"][0]["thickness"]["value"]; // the same all along
    const std::string rig_file =
        folder.file("rig.toml", "[[reading]]\nnumber = \"mass\"\nsd = 1e-5\n"
                                "[[reading]]\nnumber = \"thickness@0\"\nsd = 0.005\n");
    const std::string fitted = (folder.path() / "fitted.toml").string();
    const auto lot_of = [&](double first, double second) {
        std::ostringstream text;
        text << "serial,mass,thickness@0\n";
        for (int i = 0; i < 36; ++i) {
            const double factor = (i < 24 ? first : second) + 0.02 * (i % 5 - 2);
            text << 'A' << i << ',' << mass * factor << ',' << thickness * factor << '\n';
        }
        return run_program({"lot", coupon, folder.file("lot.csv", text.str()), "--rig", rig_file,
                            "--fitted", fitted});
    };
    const Run heavy = lot_of(1.1, 1.1);
    INFO(heavy.out << heavy.err);
    CHECK_THAT(heavy.err, Contains("the board as the plant makes it is in "));
    CHECK_THAT(content(fitted),
               Contains("# Values changed by vrid lot; strength was not") && Contains(" (lot)\""));
    const Run moved = lot_of(1, 1.1);
    INFO(moved.out << moved.err);
    CHECK_THAT(moved.err, Contains("the board as the plant made it before the change is in ") &&
                              Contains("unchanged: the mean is as predicted"));
    CHECK(content(fitted) == content(coupon));
    const Run grams = lot_of(1000, 1000); // as a mass in grams
    CHECK(grams.status == 2);
    CHECK_THAT(grams.err, Contains("lot.csv:1:8: mass reads ") &&
                              Contains(" in the median, the board gives ") &&
                              Contains("; accepted: readings in kg"));
}
