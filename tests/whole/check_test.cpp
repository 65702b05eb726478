#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

Json check_json(const std::string& board) {
    return Json::parse(run_program({"check", board, "--json"}).out)["boards"][0];
}

} // namespace

TEST_CASE("check prints outline, mass, sections, layers and limits of a board") {
    const Run run = run_program({"check", querwind});
    CHECK(run.status == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Contains("NH-157 Querwind") && Contains("sidecut radius") &&
                            Contains("balance point") && Contains("rear foot") &&
                            Contains("[N m2]") && Contains("top sheet") && Contains("nose-twist"));
}

TEST_CASE("check shows layers at any station that a board file may name") {
    const TemporaryFolder folder;
    std::string text = content(std::filesystem::path(source_dir) / coupon);
    const std::string size = "[300, 40]";
    text.replace(text.find(size), size.size(), "[4800, 200]");
    const std::string board = folder.file("board.toml", text);
    for (const char* at : {"2300", "-2399.5"}) {
        const Run run = run_program({"check", board, "--at", at});
        CAPTURE(run.err);
        CHECK(run.status == 0);
        CHECK_THAT(run.out, Contains(at));
    }
    const Run beyond = run_program({"check", board, "--at", "5001"});
    CHECK(beyond.status == 2);
    CHECK_THAT(beyond.err, Contains("-5000 to 5000"));
}

TEST_CASE("every example is a credible board or coupon") {
    int boards = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(source_dir) + "/examples")) {
        const std::filesystem::path board = entry.path() / "board.toml";
        CAPTURE(entry.path());
        CHECK(std::filesystem::exists(entry.path() / "README.md"));
        if (!std::filesystem::exists(board)) {
            continue; // a story about the other examples
        }
        ++boards;
        const Json json = check_json(board.string());
        if (entry.path().filename().string().starts_with("coupon")) {
            continue;
        }
        CHECK(json["mass"]["value"].get<double>() > 2.2);
        CHECK(json["mass"]["value"].get<double>() < 3.3);
        for (const Json& station : json["stations"]) {
            const auto label = station["label"].get<std::string>();
            if (label == "waist" || label.ends_with("foot")) {
                CHECK(station["thickness"]["value"].get<double>() > 5);
                CHECK(station["thickness"]["value"].get<double>() < 11);
                CHECK(station["GJ"]["value"].get<double>() > 50);
            }
        }
    }
    CHECK(boards >= 6);
}

TEST_CASE("the layers of a station add up to its thickness") {
    for (const Json& station : check_json(querwind)["stations"]) {
        double sum = 0;
        for (const Json& layer : station["layers"]) {
            for (const Json& part : layer["y_mm"]) {
                if (part[0] < 1.0 && part[1] > 1.0) { // just beside the long axis
                    sum += layer["thickness"]["value"].get<double>();
                }
            }
        }
        CHECK(sum == Approx(station["thickness"]["value"].get<double>()).epsilon(1e-9));
    }
}

TEST_CASE("an exceeded limit is exit status 1 and said in words") {
    const TemporaryFolder folder;
    std::string text = content(std::filesystem::path(source_dir) / querwind);
    const std::string limit = "{ max = 3.4 }";
    REQUIRE(text.find(limit) != std::string::npos);
    text.replace(text.find(limit), limit.size(), "{ max = 2.9 }");
    const Run run = run_program({"check", folder.file("heavy.toml", text)});
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("EXCEEDED"));
}

TEST_CASE("a broken board file is exit status 2 with file, line and column") {
    const TemporaryFolder folder;
    const std::string file = folder.file("broken.toml", "format = 1\nname = \"x\"\nnmae = 2\n");
    const Run run = run_program({"check", file});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains(file + ":3:1"));
}

TEST_CASE("a doubtful board is solved with a warning, and with --strict refused") {
    const TemporaryFolder folder;
    std::string text =
        content(std::filesystem::path(source_dir) / "examples/coupon-sandwich/board.toml");
    const auto at = text.find("areal_weight_gsm = ");
    REQUIRE(at != std::string::npos);
    text.insert(at + std::string("areal_weight_gsm = ").size(), "10");
    const std::string file = folder.file("odd.toml", text);
    const std::string what = "the layer is ";
    const Run checked = run_program({"check", file, "--json"});
    CHECK(checked.status == 0);
    CHECK_THAT(checked.err, Contains(file + ":") && Contains(": warning: ") && Contains(what));
    const Json warnings = Json::parse(checked.out)["boards"][0]["warnings"];
    REQUIRE_FALSE(warnings.empty());
    CHECK_THAT(warnings[0].get<std::string>(), Catch::StartsWith("odd.toml:") && Contains(what));
    const Run solved = run_program({"solve", file, "--json", "--degree", "2"});
    CHECK(solved.status == 0);
    CHECK(Json::parse(solved.out)["warnings"][0] == warnings[0]);
    const std::vector<std::vector<std::string>> verbs{{"check", file},
                                                      {"solve", file},
                                                      {"compare", file, file},
                                                      {"sense", file},
                                                      {"edge", file},
                                                      {"scatter", file},
                                                      {"calibrate", file, file},
                                                      {"match", file, file, "--out", "x"}};
    for (std::vector<std::string> words : verbs) {
        INFO(words.front());
        words.emplace_back("--strict");
        const Run strict = run_program(words);
        CHECK(strict.status == 2);
        CHECK(strict.out.empty());
        CHECK_THAT(strict.err, Contains(what) && !Contains("warning"));
    }
}

TEST_CASE("a station beyond the board is an input error") {
    const Run run = run_program({"check", querwind, "--at", "1500"});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("--at: found '1500'") &&
                            Contains("which reaches from x = -782.5 to 787.5 mm"));
}

TEST_CASE("a limit on a misspelt number is warned of, and with --strict refused") {
    const TemporaryFolder folder;
    std::string text = content(std::filesystem::path(source_dir) / querwind);
    const auto at = text.find("\"nose-twist\" =");
    REQUIRE(at != std::string::npos);
    const std::string file = folder.file("slip.toml", text.replace(at, 12, "\"nose-twits\""));
    const Run run = run_program({"check", file});
    CHECK(run.status == 0);
    CHECK_THAT(run.err, Contains(": warning: limits.nose-twits: is held against nothing") &&
                            Contains("did you mean 'nose-twist'?"));
    CHECK(run_program({"check", file, "--strict"}).status == 2);
}
