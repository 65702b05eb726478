#include <cmath>
#include <filesystem>
#include <sstream>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"
#include "tests/text_rows.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string core = "[[free]]\nvalue = \"core.thickness_mm\"\nmin = 4\nmax = 9\n"
                         "round_to = 0.05\n";
const std::string flex = "[[target]]\nnumber = \"centre-flex\"\n";

} // namespace

TEST_CASE("match writes a board that solves to what it promised, with only its values changed") {
    const TemporaryFolder folder;
    const std::string goal = folder.file("goal.toml", flex + "percent = 12\n" + core);
    const std::string out = (folder.path() / "new.toml").string();
    const Run run = run_program({"match", coupon, goal, "--out", out, "--json"});
    REQUIRE(run.status == 0);
    const Json json = Json::parse(run.out);
    CHECK(json["met"] == true);
    const double before = json["targets"][0]["before"]["value"];
    const double after = json["targets"][0]["after"]["value"];
    CHECK(std::abs(after / (1.12 * before) - 1) <= 0.005);
    const Run solved = run_program({"solve", out, "--json"});
    const Json numbers = Json::parse(solved.out);
    CHECK(numbers["cases"]["centre-flex"]["stiffness"]["value"].get<double>() ==
          Approx(after).epsilon(1e-7));
    CHECK(numbers["mass"]["value"].get<double>() ==
          Approx(json["others"]["mass"]["after"]["value"].get<double>()).epsilon(1e-7));
    // all lines but those of the name and of the thicknesses are as they were
    std::istringstream was(content(std::string(source_dir) + "/" + coupon));
    std::istringstream is(content(out));
    std::string a;
    std::string b;
    int changed = 0;
    REQUIRE(std::getline(is, b));
    CHECK(b == "# Values changed by vrid match; strength was not looked at.");
    while (std::getline(was, a) && std::getline(is, b)) {
        changed += a == b ? 0 : 1;
        CHECK((a == b || a.find("thickness_mm") == 0 ||
               (b.find("name") == 0 && b.find(" (match)") != std::string::npos)));
    }
    CHECK(changed == 2);
    const Run again = run_program({"match", coupon, goal, "--out", out + "2", "--json"});
    Json repeated = Json::parse(again.out);
    Json first = json;
    for (const char* key : {"seconds", "written"}) {
        repeated.erase(key);
        first.erase(key);
    }
    CHECK(repeated == first);
    CHECK(content(out) == content(out + "2"));
}

TEST_CASE(
    "match tells which of the board's own limits its answer breaks, whatever the goal names") {
    const TemporaryFolder folder;
    const std::string board = folder.file(
        "board.toml", content(std::string(source_dir) + "/" + coupon) +
                          "\n[limits]\nmass = { max = 0.001 }\n\"EI@0\" = { min = 1e9 }\n"
                          "\"free-modes mode 1\" = { max = 1 }\ncentre-flex = { max = 1e-3 }\n"
                          "\"thickness@0\" = { max = 100 }\n\"edge 45 deg peak\" = { max = 1 }\n");
    const std::string goal = folder.file("goal.toml", flex + "percent = 12\n" + core);
    const auto match = [&](std::vector<std::string> more) {
        more.insert(more.begin(),
                    {"match", board, goal, "--out", (folder.path() / "new.toml").string()});
        return run_program(more);
    };
    const Run text = match({});
    CHECK(text.status == 0);
    for (const char* name : {"mass", "EI@0", "free-modes mode 1", "centre-flex"}) {
        CAPTURE(name);
        const std::string row = text_row(
            text.out.substr(text.out.find("[limits] of the board file that this board breaks")),
            name);
        CHECK_THAT(row, Contains("EXCEEDED"));
    }
    CHECK_THAT(text.out, !Contains("thickness@0  "));
    const Json limits = Json::parse(match({"--json"}).out)["board_limits"];
    CHECK(limits.size() == 6);
    CHECK(limits["free-modes mode 1"]["exceeded"] == true);
    CHECK(limits["thickness@0"]["exceeded"] == false);
    CHECK_FALSE(limits["edge 45 deg peak"].contains("value"));
    const Run solved = run_program({"solve", (folder.path() / "new.toml").string(), "--json"});
    CHECK(Json::parse(solved.out)["limits"]["free-modes mode 1"]["value"].get<double>() ==
          Approx(limits["free-modes mode 1"]["value"].get<double>()).epsilon(1e-6));
}

TEST_CASE("match says what stands in the way, ends with status 1 and writes no board") {
    const TemporaryFolder folder;
    const std::string goal = folder.file("goal.toml", flex + "percent = 200\n" + core);
    const std::string out = (folder.path() / "new.toml").string();
    const Run run = run_program({"match", coupon, goal, "--out", out});
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("no answer") && Contains("missed by") && Contains("limiting") &&
                            Contains("at its max of 9 mm") &&
                            Contains("no board file was written"));
    CHECK(folder.names() == std::vector<std::string>{"goal.toml"});
}

TEST_CASE("match refuses what it cannot mean with status 2 and writes nothing") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "new.toml").string();
    const auto refused = [&](const std::string& text, const std::string& to) {
        const std::string goal = folder.file("goal.toml", text);
        const Run run = run_program({"match", coupon, goal, "--out", to});
        CHECK(run.status == 2);
        CHECK(run.out.empty());
        CHECK(folder.names() == std::vector<std::string>{"goal.toml"});
        return run.err;
    };
    const std::string good = flex + "percent = 3\n";
    const std::string wrong_value =
        refused(good + "[[free]]\nvalue = \"core.thicknes_mm\"\nmin = 4\nmax = 9\n", out);
    CHECK_THAT(wrong_value,
               Contains("did you mean 'core.thickness_mm'") && Contains("goal.toml:5"));
    CHECK_THAT(refused("[[target]]\nnumber = \"center-flex\"\npercent = 3\n" + core, out),
               Contains("did you mean 'centre-flex'"));
    CHECK_THAT(refused(good + "[[free]]\nvalue = \"core.thickness_mm\"\nmin = 9\nmax = 4\n", out),
               Contains("above min"));
    CHECK_THAT(refused(good + flex + "percent = 9\n" + core, out),
               Contains("contradicts the target"));
    CHECK_THAT(
        refused(good + "[[free]]\nvalue = \"layer.core.angle_deg\"\nmin = -5\nmax = 5\n", out),
        Contains("moves a number"));
    CHECK_THAT(refused(good + core, coupon), Contains("--out"));
    CHECK_THAT(refused(good + core, (folder.path() / "goal.toml").string()), Contains("--out"));
    CHECK_THAT(refused(good + core, (folder.path() / "none" / "new.toml").string()),
               Contains("no folder"));
    const Run without = run_program({"match", coupon, (folder.path() / "goal.toml").string()});
    CHECK(without.status == 2);
    CHECK_THAT(without.err, Contains("--out"));
}
