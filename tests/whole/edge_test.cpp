#include <filesystem>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string querwind = "examples/nh-157-querwind/board.toml";
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
    const Run details = run_program({"edge", querwind, "--angle", "30,45", "--details"});
    CHECK_THAT(details.out, Contains("edge angle lost, nose") && Contains("by bending across") &&
                                Contains("left edge, 45 deg, 800 N, 0.5000 N/mm3"));
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
    const Run same = run_program({"edge", querwind, "--compare", querwind});
    CHECK_THAT(same.out, Contains("not resolved"));
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
