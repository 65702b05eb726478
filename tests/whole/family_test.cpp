// The outline in match: a known answer, a family of sizes, and what is refused.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string approved = std::string(source_dir) + "/examples/nh-157-querwind/board.toml";

const std::string waist = "[[free]]\nvalue = \"planform.waist_width_mm\"\nmin = 245\nmax = 260\n"
                          "round_to = 0.5\n";

Run match(const TemporaryFolder& folder, const std::string& goal, const std::string& out) {
    return run_program({"match", approved, folder.file("goal.toml", goal), "--out",
                        (folder.path() / out).string(), "--json"});
}

} // namespace

TEST_CASE("a match whose answer is a known outline finds it") {
    const TemporaryFolder folder;
    // the radius of the board with a waist of 252 mm
    const Run run = match(folder,
                          "[[target]]\nnumber = \"sidecut_radius\"\nvalue = 8.8426\n"
                          "within_percent = 0.2\n" +
                              waist,
                          "new.toml");
    REQUIRE(run.status == 0);
    const Json values = Json::parse(run.out)["values"];
    CHECK(values[0]["value"] == "planform.waist_width_mm");
    CHECK(values[0]["after"] == 252);
    CHECK_THAT(content((folder.path() / "new.toml").string()), Contains("= 252"));
}

TEST_CASE("a family of the approved size changes nothing, a longer one stretches its stations") {
    const TemporaryFolder folder;
    const std::string goal =
        "[[size]]\nname = \"same\"\n[[size]]\nname = \"long\"\n"
        "set = { \"planform.running_length_mm\" = 1166 }\nsidecut_m = 8.6\n"
        "stretch = [\"core.station_mm\", \"layer.*.zone.x_mm\", \"edge.x_mm\"]\n"
        "[[target]]\nnumber = \"nose-flex\"\nsame_as = \"approved\"\n"
        "scale = { \"planform.running_length_mm\" = -1 }\nwithin_percent = 1\n"
        "[[free]]\nvalue = \"core.thickness_mm\"\nmin = 1.5\nmax = 9.5\nround_to = 0.05\n";
    const Run run = match(folder, goal, "sizes");
    REQUIRE(run.status == 0);
    const Json sizes =
        Json::parse(content((folder.path() / "sizes/family.json").string()))["sizes"];
    REQUIRE(sizes.size() == 2);
    CHECK(sizes[0]["met"] == true);
    CHECK(sizes[0]["values"]["core.thickness_mm[3]"] == 2.5); // as drawn
    const double wanted = sizes[1]["targets"][0]["wanted"];
    CHECK(wanted ==
          Approx(sizes[0]["targets"][0]["wanted"].get<double>() * 1135 / 1166).epsilon(1e-9));
    const Run check =
        run_program({"check", (folder.path() / "sizes/long.toml").string(), "--json"});
    CHECK_THAT(check.out, Contains("8.6"));
    const std::string file = content((folder.path() / "sizes/long.toml").string());
    CHECK_THAT(file, Contains("[583, ") && Contains("NH-157 Querwind long (match)"));
    REQUIRE(run_program({"report", (folder.path() / "sizes").string()}).status == 0);
    CHECK_THAT(content((folder.path() / "sizes/report.html").string()),
               Contains("2 of 2 sizes meet") && Contains("Outlines of the sizes"));
}

TEST_CASE("what a family cannot be is refused before anything is solved") {
    const TemporaryFolder folder;
    const std::string target = "[[target]]\nnumber = \"mass\"\nsame_as = \"approved\"\n";
    const auto refused = [&](const std::string& goal, const std::string& why,
                             const std::string& out = "sizes") {
        const Run run = match(folder, goal, out);
        CHECK(run.status == 2);
        CHECK_THAT(run.err, Contains(why));
    };
    const std::string size = "[[size]]\nname = \"150\"\n";
    refused(size + size + target + waist, "twice");
    refused(size + target + waist, "a folder", "sizes.toml");
    refused(size + target + "scale = { rider_kg = 1 }\n" + waist, "rider_kg is missing");
    refused(size + "sidecut_m = 8\n" + target + waist, "both set the same value");
    refused(size + "set = { \"planform.rectangle_mm[0]\" = 8 }\n" + target + waist,
            "no design value of this board");
    refused(size + "stretch = [\"stance.width_mm\"]\n" + target + waist, "more than stations");
    refused(target + waist, "no file"); // without sizes it is a file's name
}
