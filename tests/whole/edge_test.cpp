#include <filesystem>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string biax = "examples/nh-157-biax/board.toml";

} // namespace

TEST_CASE("edge prints a table a condition and writes all its files") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "edge").string();
    const Run run =
        run_program({"edge", querwind, "--angle", "30,45", "--hardness", "packed,5", "--out", out});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("lost nose") && Contains("by twist"));
    CHECK_THAT(run.out, !Contains("contact length"));
    const Run details = run_program(
        {"edge", querwind, "--angle", "30,45", "--details", "--degree", "2", "--size-mm", "80"});
    CHECK_THAT(details.out, Contains("edge angle lost, nose") && Contains("by bending across") &&
                                Contains("left edge, 45 deg, 800 N, 0.5 N/mm3"));
    const Json json = Json::parse(content(out + "/edge.json"));
    REQUIRE(json["conditions"].size() == 4);
    CHECK(json["conditions"][0]["angle_deg"] == 30.0);
    CHECK(json["conditions"][1]["hardness"] == 5.0);
    CHECK(json["conditions"][0]["peak"]["unit"] == "N/mm");
    CHECK(json["conditions"][0]["balance"] < 1e-9);
    for (const char* file : {"edge.csv", "edge-1.vtu", "edge-4.vtp"}) {
        CHECK(std::filesystem::file_size(out + "/" + file) > 1000);
    }
}

TEST_CASE("edge compares two boards in the same conditions") {
    const Run run = run_program({"edge", querwind, "--compare", biax, "--json"});
    CHECK(run.status == 0);
    const Json json = Json::parse(run.out);
    CHECK(json["compared"]["conditions"][0]["difference"]["loss_nose"]["resolved"] == true);
    const Run same =
        run_program({"edge", querwind, "--compare", querwind, "--degree", "2", "--size-mm", "80"});
    CHECK_THAT(same.out, Contains("not resolved"));
}

TEST_CASE("edge judges the board's limits on the edge in every condition; solve says who does") {
    const TemporaryFolder folder;
    std::string text = content(std::string(source_dir) + "/" + querwind);
    const std::size_t at = text.find('\n', text.find("[limits]"));
    REQUIRE(at != std::string::npos);
    text.insert(at + 1, "\"edge.loss_nose\" = { max = 1 }\n\"edge.loss_tail\" = { max = 90 }\n"
                        "\"strength.nose-flex\" = { min = 1 }\n");
    const std::string board = folder.file("board.toml", text);
    const std::vector<std::string> coarse{"--degree", "2", "--size-mm", "80"};
    const auto run = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.end(), coarse.begin(), coarse.end());
        return run_program(arguments);
    };
    const Run map = run({"edge", board, "--hardness", "packed,5"});
    CAPTURE(map.out);
    CHECK(map.status == 1);
    CHECK_THAT(map.out, Contains("EXCEEDED") && Contains("edge 45 deg 800 N 0.5 N/mm3 loss tail") &&
                            !Contains("nose-twist"));
    CHECK_THAT(map.out, Contains("EXCEEDED in all 2 conditions") &&
                            Contains("within in all 2 conditions") &&
                            Contains("--details prints them all"));
    const Run details = run({"edge", board, "--hardness", "packed,5", "--details"});
    CHECK_THAT(details.out, Contains("edge 45 deg 800 N 0.5 N/mm3 loss nose") &&
                                Contains("edge 45 deg 800 N 5 N/mm3 loss nose") &&
                                !Contains("in all 2 conditions"));
    const Run json = run({"edge", querwind, "--compare", board, "--json"});
    CHECK(json.status == 1);
    const Json all = Json::parse(json.out);
    CHECK(all["limits"].empty());
    const Json& limits = all["compared"]["limits"];
    CHECK(limits.size() == 2);
    const Json& condition = all["compared"]["conditions"][0];
    const Json& nose = limits[condition["name"].get<std::string>() + " loss nose"];
    CHECK(nose["exceeded"] == true);
    CHECK(nose["value"] == condition["loss_nose"]["value"]);
    const Run solved = run({"solve", board, "--case", "centre-flex"});
    CHECK(solved.status == 0);
    CHECK_THAT(solved.out, Contains("limits on the edge are judged by vrid edge and vrid batch"));
    CHECK_THAT(solved.out,
               Contains("limits on strength are judged by vrid strength and vrid batch"));
    const Run checked = run_program({"check", board});
    CHECK_THAT(checked.out,
               Contains("not computed: judged by vrid solve, edge, strength or batch"));
}

TEST_CASE("edge in large motion gives the same numbers and files, and says so") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "edge").string();
    const std::vector<std::string> coarse{"--degree", "2", "--size-mm", "80"};
    const auto edge = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), {"edge", querwind, "--angle", "60", "--force", "1600"});
        arguments.insert(arguments.end(), coarse.begin(), coarse.end());
        return run_program(arguments);
    };
    const Run small = edge({"--json"});
    CHECK(small.status == 0);
    const Run bent = edge({"--bent", "--compare", biax, "--out", out});
    CHECK(bent.status == 0);
    CHECK_THAT(bent.out, Contains(", in large motion") && Contains("B - A"));
    const Json before = Json::parse(small.out);
    const Json after = Json::parse(content(out + "/edge.json"));
    CHECK(before["motion"] == "small");
    CHECK(after["motion"] == "large");
    CHECK(after["shape"] == "rest");
    const Json& a = before["conditions"][0];
    const Json& b = after["conditions"][0];
    for (const auto& [key, value] : a.items()) {
        CHECK(b.contains(key));
    }
    CHECK(a.size() == b.size());
    CHECK(b["balance"] < 1e-9);
    // what large bending does: the tips carry more of the load, and turn away further
    CHECK(b["peak"]["value"] > a["peak"]["value"]);
    CHECK(b["effective_length"]["value"] < a["effective_length"]["value"]);
    CHECK(b["loss_nose"]["value"] > a["loss_nose"]["value"]);
    const double whole = b["loss_nose"]["value"];
    const double twist = b["loss_nose_twist"]["value"];
    const double across = b["loss_nose_across"]["value"];
    CHECK(twist + across == Approx(whole).epsilon(1e-6));
    for (const char* file : {"edge.csv", "edge-1.vtu", "edge-1.vtp"}) {
        CHECK(std::filesystem::file_size(out + "/" + file) > 1000);
    }
}

TEST_CASE("sense and a suite know the edge of the bent board, as edge --bent gives it") {
    const TemporaryFolder folder;
    const std::vector<std::string> coarse{"--degree", "1", "--size-mm", "150"};
    const auto run = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.end(), coarse.begin(), coarse.end());
        return run_program(arguments);
    };
    const std::vector<std::string> at{"--angle", "60", "--force", "1600", "--bent"};
    std::vector<std::string> arguments{"edge", querwind, "--json"};
    arguments.insert(arguments.end(), at.begin(), at.end());
    const Json alone = Json::parse(run(arguments).out)["conditions"][0];
    CHECK(alone["name"] == "edge 60 deg 1600 N 0.5 N/mm3 bent");
    arguments = {"sense", querwind, "--of", "edge.loss_nose", "--to", "core.thickness_mm",
                 "--json"};
    arguments.insert(arguments.end(), at.begin(), at.end());
    const Json sensed = Json::parse(run(arguments).out);
    CHECK(sensed["numbers"]["edge.loss_nose"]["value"] == alone["loss_nose"]["value"]);
    CHECK(sensed["edge"] == alone["name"]); // at which condition
    CHECK(sensed["derivatives"].size() == 17);
    const Run heights = run_program({"sense", querwind, "--to", "rest_shape.z_mm[0]"});
    CHECK(heights.status == 2);
    CHECK_THAT(heights.err, Contains("no derivatives"));

    const std::string suite =
        folder.file("suite.toml", "format = 1\nname = \"s\"\nboards = [\"" +
                                      std::string(source_dir) + "/" + querwind +
                                      "\"]\ncases = [\"centre-flex\"]\n[edge]\nangle_deg = [60]\n"
                                      "force_N = [1600]\nhardness_Npmm3 = [0.5]\nbent = true\n");
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run({"batch", suite, "--out", out}).status == 0);
    const Json numbers = Json::parse(content(out + "/summary.json"))["rows"][0]["numbers"];
    const std::string name = "edge 60 deg 1600 N 0.5 N/mm3 bent loss nose";
    REQUIRE(numbers.contains(name));
    CHECK(numbers[name]["value"] == alone["loss_nose"]["value"]);
    const Run flat = run({"batch", suite, "--flat", "--out", out});
    CHECK(flat.status == 2);
    CHECK_THAT(flat.err, Contains("--flat"));
}

TEST_CASE("a board that folds on its edge ends with status 3 and what was reached") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "edge").string();
    const Run run = run_program({"edge", querwind, "--bent", "--degree", "1", "--size-mm", "80",
                                 "--force", "100000", "--hardness", "0.002", "--out", out});
    CHECK(run.status == 3);
    CHECK_THAT(run.err, Contains("% of the load"));
    CHECK(std::filesystem::is_empty(out));
    const Run flat = run_program({"edge", querwind, "--bent", "--flat"});
    CHECK(flat.status == 2);
    CHECK_THAT(flat.err, Contains("--bent") && Contains("--flat"));
}

TEST_CASE("edge refuses bad input with status 2 and leaves no folder") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "edge").string();
    const std::vector<std::pair<std::string, std::string>> bad{
        {"--angle", "5"},    {"--angle", "nan"},  {"--force", "0"},
        {"--force", "-800"}, {"--hardness", "0"}, {"--hardness", "pakced"},
        {"--share", "1.2"},  {"--side", "lft"},   {"--law", "quadratic"}};
    for (const auto& [option, value] : bad) {
        const Run run = run_program({"edge", querwind, option, value, "--out", out});
        CHECK(run.status == 2);
        CHECK_THAT(run.err, Contains(option) && Contains(value));
    }
    CHECK_THAT(run_program({"edge", querwind, "--hardness", "pakced"}).err, Contains("'packed'"));
    const Run coupon = run_program({"edge", "examples/coupon-triax/board.toml", "--out", out});
    CHECK(coupon.status == 2);
    CHECK_THAT(coupon.err, Contains("[stance]"));
    CHECK_FALSE(std::filesystem::exists(out));
}
