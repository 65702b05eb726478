// The story of examples/three-mm-too-much: its README prints these numbers.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Json = nlohmann::json;

namespace {

const std::string story = "examples/three-mm-too-much/";

Json fitted(const std::string& bench, const std::string& out = "") {
    std::vector<std::string> words{"calibrate", story + "board.toml", story + bench, "--json"};
    if (!out.empty()) {
        words.insert(words.end(), {"--out", out});
    }
    const Run run = run_program(words);
    REQUIRE(run.status == 0);
    return Json::parse(run.out);
}

double value(const Json& fit, std::size_t i, const char* key) {
    return fit["values"][i][key];
}

} // namespace

TEST_CASE(
    "camber alone does not tell the resin's temperature from the base's, and calibrate says so") {
    const Json fit = fitted("bench-camber-only.toml");
    REQUIRE(fit["indistinct"].size() == 1);
    CHECK(fit["indistinct"][0]["a"] == "cure.stress_free_C");
    CHECK(fit["indistinct"][0]["b"] == "material.uhmwpe.stress_free_C");
    CHECK(fit["untouched"] == Json::array({"cure.stress_free_C"}));
}

TEST_CASE("hollow and twist speak for the base, and the fitted board has a mould line of its own") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "fitted.toml").string();
    const Json fit = fitted("bench.toml", out);
    CHECK(value(fit, 0, "after") == Approx(85.9).margin(0.1));
    CHECK(value(fit, 1, "after") == Approx(206.4).margin(0.5));
    CHECK(value(fit, 2, "after") == Approx(67.7).margin(0.1));
    CHECK(value(fit, 0, "sd") > 0.75 * value(fit, 0, "prior_sd"));
    CHECK(value(fit, 2, "sd") < 0.6 * value(fit, 2, "prior_sd"));
    const Json solved = Json::parse(run_program({"solve", out, "--case", "release", "--json"}).out);
    for (const Json& point : solved["mould"]) {
        if (point["x_mm"] == 0) {
            CHECK(point["wanted_mm"].get<double>() == Approx(4.80).margin(0.01));
            CHECK(point["mould_mm"].get<double>() == Approx(2.41).margin(0.02));
        }
    }
}
