// What vrid report makes of damaged folders.
#include <filesystem>
#include <fstream>

#include <sys/stat.h>

#include <catch2/catch.hpp>

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Catch::Contains;
namespace fs = std::filesystem;

TEST_CASE("a damaged folder is an input error that names the file, whatever the damage") {
    const TemporaryFolder folder;
    const fs::path out = folder.path() / "out";
    REQUIRE(run_program({"solve", "examples/nh-157-querwind/board.toml", "--case", "centre-flex",
                         "--out", out.string()})
                .status == 0);
    const auto refused = [&](const std::string& why) {
        const Run run = run_program({"report", out.string()});
        CHECK(run.status == 2);
        CHECK_THAT(run.err, Contains(why));
    };
    const auto with = [&](const char* file, const std::string& from, const std::string& to,
                          const std::string& why) {
        const std::string before = content(out / file);
        std::string text = before;
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
        std::ofstream(out / file, std::ios::binary) << text;
        refused(why);
        std::ofstream(out / file, std::ios::binary) << before;
    };
    with("drawing.json", "\"feet\":[[", "\"feet\":[[],[",
         "drawing.json: is damaged at /feet/0: found a list of 0");
    with("drawing.json", "\"contact\":[", "\"contact\":[1,", "at /contact: found a list of 3");
    with("stations.csv", "\n", "\n-700\n", "stations.csv:2: is damaged: found 1 cells");
    std::ofstream(out / "result.json", std::ios::binary | std::ios::trunc) << "{\"format\": 1";
    refused("damaged");
    fs::remove(out / "result.json");
    REQUIRE(mkfifo((out / "result.json").c_str(), 0600) == 0);
    refused("result.json: is not a regular file");
    fs::remove(out / "result.json");
    std::ofstream(out / "result.json", std::ios::binary) << "{";
    fs::resize_file(out / "result.json", std::uintmax_t{100} << 20); // sparse
    refused("result.json: is larger than 64 MiB");
}

TEST_CASE("a report of edge --compare shows both boards and their numbers") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"edge", "examples/nh-157-biax/board.toml", "--compare",
                         "examples/nh-157-querwind/board.toml", "--degree", "2", "--out", out})
                .status == 0);
    REQUIRE(run_program({"report", out}).status == 0);
    const std::string page = content(out + "/report.html");
    for (const char* wanted : {"NH-157 Querwind, biax", "NH-157 Querwind",
                               "edge 45 deg 800 N 0.5 N/mm3 peak", "id=\"overview\""}) {
        CHECK_THAT(page, Contains(wanted));
    }
    CHECK_THAT(page, Contains("2 rows"));
}

TEST_CASE(
    "the page of an edge or a strength alone tells the warnings of its board file; a folder that "
    "is not there is named so") {
    const TemporaryFolder folder;
    std::string text = content(std::string(source_dir) + "/" + querwind);
    const std::string sheet = "thickness_mm = 1.20";
    const std::size_t at = text.find(sheet);
    REQUIRE(at != std::string::npos);
    const std::string board =
        folder.file("thick.toml", text.replace(at, sheet.size(), "thickness_mm = 13"));
    for (const std::vector<std::string>& verb :
         {std::vector<std::string>{"edge", board}, {"strength", board, "--case", "nose-flex"}}) {
        CAPTURE(verb[0]);
        const std::string out = (folder.path() / verb[0]).string();
        std::vector<std::string> words = verb;
        words.insert(words.end(), {"--degree", "2", "--size-mm", "80", "--out", out});
        CHECK_THAT(run_program(words).err, Contains("thick.toml:") && Contains("warning"));
        REQUIRE(run_program({"report", out}).status == 0);
        const std::string page = content(out + "/report.html");
        CHECK_THAT(page.substr(0, page.find("id=\"overview\"")),
                   Contains("Warnings (") && Contains("thick.toml:"));
    }
    const Run missing = run_program({"report", (folder.path() / "none").string()});
    CHECK(missing.status == 2);
    CHECK_THAT(missing.err, Contains("none: no such folder"));
}

TEST_CASE("results of two boards in one folder are shown as two boards, and the page says so") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program(
                {"solve", "examples/nh-157-biax/board.toml", "--case", "centre-flex", "--out", out})
                .status == 0);
    REQUIRE(
        run_program({"edge", "examples/nh-157-querwind/board.toml", "--degree", "2", "--out", out})
            .status == 0);
    REQUIRE(run_program({"report", out}).status == 0);
    const std::string page = content(out + "/report.html");
    CHECK_THAT(page, Contains("are of two boards, or of two states of one file"));
    CHECK_THAT(page, Contains("2 rows") && Contains("NH-157 Querwind, biax (result.json)") &&
                         Contains("NH-157 Querwind (edge.json)"));
}

TEST_CASE("what sense found of another state of the board is said at the top of the page") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    const std::string board = "examples/coupon-sandwich/board.toml";
    const auto page = [&] {
        REQUIRE(run_program({"report", out}).status == 0);
        const std::string all = content(out + "/report.html");
        return all.substr(0, all.find("<h2 id=\"overview\""));
    };
    REQUIRE(run_program({"solve", board, "--case", "centre-flex", "--out", out}).status == 0);
    REQUIRE(run_program({"sense", board, "--of", "mass", "--out", out}).status == 0);
    CHECK_THAT(page(), !Contains("another state"));
    REQUIRE(run_program({"sense", "examples/coupon-triax/board.toml", "--of", "mass", "--out", out})
                .status == 0);
    CHECK_THAT(page(), Contains("sense.json is of another board, or of another state of the file"));
}

TEST_CASE("the folder of a second run holds no field files of the first") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    const std::string board = "examples/coupon-sandwich/board.toml";
    REQUIRE(run_program({"solve", board, "--out", out}).status == 0);
    CHECK(fs::exists(out + "/free-modes.vtu"));
    REQUIRE(run_program({"solve", board, "--case", "centre-flex", "--out", out}).status == 0);
    CHECK_FALSE(fs::exists(out + "/free-modes.vtu"));
    CHECK(fs::exists(out + "/centre-flex.vtu"));
    CHECK(fs::exists(out + "/sections.csv"));
}
