#include <csignal>
#include <filesystem>
#include <regex>

#include <sys/mount.h>
#include <sys/resource.h>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

// Two sheets that shrink unlike each other: hollow at every station between the contact lines.
const char* const hollow_strip = "format = 1\n"
                                 "name = \"strip\"\n"
                                 "[planform]\n"
                                 "rectangle_mm = [400, 60]\n"
                                 "[[layer]]\n"
                                 "name = \"lower\"\n"
                                 "material = \"uhmwpe\"\n"
                                 "thickness_mm = 1\n"
                                 "[[layer]]\n"
                                 "name = \"upper\"\n"
                                 "material = \"abs\"\n"
                                 "thickness_mm = 2\n"
                                 "[cure]\n"
                                 "stress_free_C = 85\n"
                                 "[limits]\n"
                                 "\"release.concavity@100\" = { max = 0.001 }\n";

/// result.json's text without the one key that may differ between runs.
std::string without_seconds(const std::string& text) {
    auto json = nlohmann::ordered_json::parse(text);
    json.erase("seconds");
    return json.dump();
}

} // namespace

TEST_CASE("solve writes result.json, stations.csv and viewer files, and prints the same numbers") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "results").string();
    const Run run = run_program({"solve", coupon, "--out", out});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("centre-flex") && Contains("+-") && Contains("N/mm"));
    CHECK_THAT(run.out, Contains("nose-twist") && Contains("no [stance]")); // skipped, and why
    const Json json = Json::parse(content(out + "/result.json"));
    CHECK(json["cases"]["centre-flex"]["stiffness"]["unit"] == "N/mm");
    CHECK(json["skipped"].contains("stance-twist"));
    for (const Json& file : json["files"]) {
        CHECK(std::filesystem::exists(out + "/" + file.get<std::string>()));
    }
    // and the list of what was written
    CHECK(json["files"].size() + 1 ==
          static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(out), {})));
}

TEST_CASE("two runs give the same files byte for byte, timings aside") {
    const TemporaryFolder folder;
    for (const char* name : {"a", "b"}) {
        REQUIRE(run_program({"solve", coupon, "--out", (folder.path() / name).string()}).status ==
                0);
    }
    for (const char* file : {"stations.csv", "board.vtu", "centre-flex.vtu"}) {
        CHECK(content(folder.path() / "a" / file) == content(folder.path() / "b" / file));
    }
    CHECK(without_seconds(content(folder.path() / "a" / "result.json")) ==
          without_seconds(content(folder.path() / "b" / "result.json")));
}

TEST_CASE("solve --json prints one document and nothing else") {
    const Run run = run_program({"solve", coupon, "--json", "--case", "centre-flex"});
    CHECK(run.status == 0);
    CHECK(Json::parse(run.out)["cases"].size() == 1);
}

TEST_CASE("a case asked for by name that the board cannot have is an input error") {
    const Run run = run_program({"solve", coupon, "--case", "stance-twist"});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("stance-twist"));
}

TEST_CASE("an output folder that cannot be made is found before solving") {
    const TemporaryFolder folder;
    const std::string file = folder.file("file", "x");
    const Run run = run_program({"solve", coupon, "--out", file + "/results"});
    CHECK(run.status == 4);
    CHECK_THAT(run.err, Contains(file));
}

TEST_CASE("a disk that fills up is exit status 4 and leaves nothing behind") {
    const TemporaryFolder folder;
    if (mount("none", folder.path().c_str(), "tmpfs", 0, "size=16k") != 0) {
        WARN("skipped: no permission to mount a small file system");
        return;
    }
    const Run run = run_program({"solve", coupon, "--out", folder.path().string()});
    CHECK(run.status == 4);
    CHECK(folder.names().empty());
    umount(folder.path().c_str());
}

TEST_CASE("a limit on the size of files is exit status 4 and leaves nothing behind") {
    const TemporaryFolder folder;
    rlimit before{};
    REQUIRE(getrlimit(RLIMIT_FSIZE, &before) == 0);
    rlimit small = before;
    small.rlim_cur = 8192;                         // result.json fits, a field file does not
    REQUIRE(setrlimit(RLIMIT_FSIZE, &small) == 0); // the program inherits it
    const Run run = run_program({"solve", coupon, "--out", folder.path().string()});
    setrlimit(RLIMIT_FSIZE, &before);
    CHECK(run.status == 4);
    CHECK_THAT(run.err, Contains("File too large"));
    CHECK(folder.names().empty());
}

TEST_CASE("what the README says that the first command prints is what it prints") {
    const std::string readme = content(std::string(source_dir) + "/README.md");
    const std::string lead = "It prints\n\n```\n";
    const std::size_t from = readme.find(lead);
    REQUIRE(from != std::string::npos);
    const std::size_t start = from + lead.size();
    std::string said = readme.substr(start, readme.find("```", start) - start);
    std::string printed = run_program({"solve", querwind}).out;
    for (std::string* text : {&said, &printed}) {
        *text = std::regex_replace(*text, std::regex("unknowns, [0-9.]+ s"), "unknowns");
    }
    CHECK(said == printed);
}

TEST_CASE("Ctrl-C ends a run with status 130 and no temporary files") {
    const TemporaryFolder folder;
    const Run run = run_and_signal(
        {"solve", querwind, "--size-mm", "15", "--out", folder.path().string()}, SIGINT, 0.6);
    CHECK(run.status == 130);
    CHECK_THAT(run.err, Contains("cancelled"));
    CHECK(folder.names().empty());
}

TEST_CASE("Ctrl-C ends a run within two seconds, in the middle of a large factor too") {
    const TemporaryFolder folder;
    const Run run = run_and_signal(
        {"solve", querwind, "--size-mm", "8", "--degree", "6", "--out", folder.path().string()},
        SIGINT, 3); // the factor takes from the first second to the seventh, alone on two cores
    CHECK(run.status == 130);
    CHECK(run.seconds_after_signal < 2); // one, and what a loaded machine adds
    CHECK(folder.names().empty());
}

TEST_CASE("degree 1 has no bar and says so; --rel-error begins at degree 2") {
    const Run text = run_program({"solve", coupon, "--degree", "1"});
    CHECK(text.status == 0);
    CHECK_THAT(text.out, Contains("no error bars"));
    const Json one = Json::parse(run_program({"solve", coupon, "--degree", "1", "--json"}).out);
    for (const auto& [name, numbers] : one["cases"].items()) {
        for (const auto& [number, quantity] : numbers.items()) {
            CAPTURE(name, number);
            CHECK(quantity["error"].is_null());
        }
    }
    const Json same =
        Json::parse(run_program({"compare", coupon, coupon, "--degree", "1", "--json"}).out);
    CHECK(same["numbers"]["centre-flex"][0]["error"].is_null());
    const Json refined = Json::parse(
        run_program({"solve", coupon, "--degree", "1", "--rel-error", "1%", "--json"}).out);
    CHECK(refined["mesh"]["degree"].get<int>() > 1);
    CHECK(refined["cases"]["centre-flex"]["stiffness"]["error"].get<double>() > 0);
}

TEST_CASE("compare tells a change from a difference it cannot resolve") {
    const Run run = run_program({"compare", coupon, coupon, "--case", "centre-flex"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("not resolved"));
    const Run other = run_program(
        {"compare", coupon, "examples/coupon-triax/board.toml", "--case", "centre-flex", "--json"});
    CHECK(other.status == 0);
    const Json json = Json::parse(other.out);
    CHECK(json["numbers"]["centre-flex"][1]["resolved"] == true);
    CHECK_FALSE(json["numbers"]["centre-flex"][0].contains("percent"));
}

TEST_CASE("a limit on the hollow at any station is held against it, by solve and by a batch") {
    const TemporaryFolder folder;
    const std::string board = folder.file("strip.toml", hollow_strip);
    const Run solved = run_program({"solve", board, "--case", "release"});
    INFO(solved.out << solved.err);
    CHECK(solved.status == 1);
    CHECK_THAT(solved.out, Contains("EXCEEDED") && !Contains("not computed"));
    const std::string suite = folder.file(
        "suite.toml", "format = 1\nname = \"n\"\nboards = [\"strip.toml\"]\ncases = "
                      "[\"release\"]\n[limits]\n\"release.concavity@50\" = { max = 0.001 }\n");
    const std::string out = (folder.path() / "out").string();
    CHECK(run_program({"batch", suite, "--out", out}).status == 1);
    const Json row = Json::parse(content(out + "/summary.json"))["rows"][0];
    INFO(row.dump(1));
    for (const char* number : {"release.concavity@50", "release.concavity@100"}) {
        CHECK(row["limits"][number]["exceeded"] == true);
    }
}
