// A suite's [edge] map from the file to the summary and the report.
#include <filesystem>
#include <fstream>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string all_boards = std::string(source_dir) + "/examples/";
const std::string kieselbach = all_boards + "nh-154-kieselbach/board.toml";
const std::string name = "edge 45 deg 800 N 5 N/mm3 ";

std::string edge_suite_text(const std::string& more) {
    return "format = 1\nname = \"test\"\nboards = [\"" + kieselbach + "\", \"" + all_boards +
           "coupon-triax/board.toml\"]\ncases = [\"centre-flex\"]\n"
           "[edge]\nangle_deg = [45]\nforce_N = [800]\nhardness_Npmm3 = [0.5, 5]\n" +
           more;
}

fs::path job_of(const fs::path& folder, const std::string& start) {
    for (const auto& entry : fs::directory_iterator(folder / "jobs")) {
        if (entry.path().filename().string().starts_with(start)) {
            return entry.path();
        }
    }
    return {};
}

} // namespace

TEST_CASE("the map's numbers are those of vrid edge, limited and kept like any others") {
    const TemporaryFolder folder;
    const std::string suite =
        folder.file("suite.toml", edge_suite_text("[[variant]]\nname = \"more resin\"\n"
                                                  "set = { \"mass_only.resin_gsm\" = 300 }\n"
                                                  "[limits]\n\"" +
                                                  name + "loss nose\" = { max = 0.5 }\n\"" + name +
                                                  "los tail\" = { max = 0.5 }\n"
                                                  "\"edge.loss_tail\" = { max = 0.5 }\n"));
    const std::string out = (folder.path() / "out").string();
    const Run run = run_program({"batch", suite, "--out", out});
    CAPTURE(run.out, run.err);
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("outside limits") && Contains(name + "loss nose") &&
                            Contains("limits on numbers that no row has") &&
                            Contains("did you mean"));
    const Json rows = Json::parse(content(out + "/summary.json"))["rows"];
    REQUIRE(rows.size() == 4); // sorted by path: coupon, then board, each with its variant
    const Json& drawn = rows[2];
    const Json& variant = rows[3];
    CHECK(drawn["numbers"].size() > 25); // two conditions of thirteen, mass, centre-flex
    CHECK(drawn["limits"][name + "loss nose"]["exceeded"] == true);
    CHECK(drawn["limits"][name + "loss tail"]["max"] == 0.5);
    CHECK(drawn["limits"]["edge 45 deg 800 N 0.5 N/mm3 loss tail"]["max"] == 0.5);
    // Resin moves no stiffness: the same edge.
    CHECK(drawn["numbers"][name + "peak"] == variant["numbers"][name + "peak"]);
    CHECK(drawn["key"] != variant["key"]);
    // A coupon has no feet: its cases are run all the same.
    CHECK(rows[0]["status"] == "done");
    CHECK_FALSE(rows[0]["numbers"].contains(name + "peak"));
    const Json coupon = Json::parse(content(job_of(out, "coupon") / "result.json"));
    CHECK_THAT(coupon["skipped"]["edge"].get<std::string>(), Contains("[stance]"));

    const std::string alone = (folder.path() / "edge").string();
    REQUIRE(run_program({"edge", kieselbach, "--angle", "45", "--force", "800", "--hardness",
                         "0.5,5", "--threads", "1", "--out", alone})
                .status == 0);
    const Json condition = Json::parse(content(alone + "/edge.json"))["conditions"][1];
    CHECK(condition["name"] == "edge 45 deg 800 N 5 N/mm3");
    for (const auto& [key, word] :
         {std::pair("peak", "peak"), {"loss_nose", "loss nose"}, {"turn_radius", "turn radius"}}) {
        CAPTURE(key);
        CHECK(condition[key]["value"] == drawn["numbers"][name + word]["value"]);
        CHECK(condition[key]["error"] == drawn["numbers"][name + word]["error"]);
    }
    // The page of the edge alone has its pictures, the drawing among them.
    REQUIRE(run_program({"report", alone}).status == 0);
    CHECK_THAT(content(alone + "/report.html"), Contains("Where the edge carries 800 N") &&
                                                    Contains("Cross-sections") &&
                                                    Contains("Table: all numbers of the edge"));
}

TEST_CASE("another map is another job; a damaged edge file is made anew") {
    const TemporaryFolder folder;
    const std::string text = edge_suite_text("");
    const std::string suite = folder.file("suite.toml", text);
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"batch", suite, "--out", out}).status == 0);
    const std::string wanted = content(out + "/summary.csv");
    CHECK_THAT(wanted, Contains(name + "loss nose [deg]") && Contains(name + "share middle,"));
    for (const char* file : {"edge.json", "edge.csv"}) {
        std::ofstream(job_of(out, "nh-154") / file, std::ios::app) << "1";
        CHECK_THAT(run_program({"batch", suite, "--out", out}).err, Contains("damaged"));
        CHECK(content(out + "/summary.csv") == wanted);
    }
    std::string other = text;
    other.replace(other.find("[0.5, 5]"), 8, "[0.5, 6]");
    const Run run = run_program({"batch", folder.file("suite.toml", other), "--out", out});
    CHECK(run.status == 0);
    CHECK(run.err.find("finished before") == std::string::npos);
    CHECK_THAT(content(out + "/summary.csv"), Contains("edge 45 deg 800 N 6 N/mm3 peak"));
}
