#include "io/write/result_json.hpp"

#include <cmath>
#include <limits>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/write/result_document.hpp"
#include "tests/io/write/solved_example.hpp"

using namespace vrid;
using Json = nlohmann::ordered_json;

TEST_CASE("result.json has its keys in the documented order and bench units") {
    const Json json = Json::parse(result_json(tests::solved_example(), {"stations.csv"}, 0.5));
    std::vector<std::string> keys;
    for (const auto& [key, value] : json.items()) {
        keys.push_back(key);
    }
    CHECK(keys == std::vector<std::string>{"format", "program", "board", "outline", "mass",
                                           "balance_point", "shape", "cases", "skipped", "limits",
                                           "mesh", "solver", "warnings", "files", "caution",
                                           "seconds"});
    CHECK(json["format"] == 1);
    CHECK(json["program"].get<std::string>().starts_with("vrid "));
    CHECK(json["board"]["hash"] == "0123abcd");
    const Json& flex = json["cases"]["centre-flex"]["stiffness"];
    CHECK(flex["value"].get<double>() == Approx(7.5123456789));
    CHECK(flex["unit"] == "N/mm");
    CHECK(flex["error"].get<double>() == 0.004);
    const Json& twist = json["cases"]["full-twist"]["stiffness"];
    CHECK(twist["unit"] == "N m/deg");
    CHECK(twist["value"].get<double>() == Approx(80.0 * 3.14159265358979 / 180).epsilon(1e-9));
    CHECK(json["mass"]["value"].get<double>() == Approx(3.14).epsilon(1e-4));
    CHECK(json["mass"]["unit"] == "kg");
    CHECK(json["seconds"]["write"] == 0.5);
    CHECK(json["seconds"]["factor"] == 0.0);
}

TEST_CASE("a skipped case is listed with its reason and not among the cases") {
    const Json json = Json::parse(result_json(tests::solved_example(), {}, 0));
    CHECK(json["skipped"]["stance-twist"] == "the board file has no [stance]");
    CHECK_FALSE(json["cases"].contains("stance-twist"));
    CHECK(json["warnings"] == Json{"a warning"});
}

TEST_CASE("the same result gives the same bytes") {
    const SolvedBoard solved = tests::solved_example();
    CHECK(result_json(solved, {"a"}, 0.1) == result_json(tests::solved_example(), {"a"}, 0.1));
}

TEST_CASE("what is not finite becomes null, so that the document stays JSON") {
    SolvedBoard solved = tests::solved_example();
    solved.study.cases[0].numbers[0].quantity.value = std::numeric_limits<double>::quiet_NaN();
    const Json json = Json::parse(result_json(solved, {}, 0));
    CHECK(json["cases"]["centre-flex"]["stiffness"]["value"].is_null());
    CHECK(json["outline"]["sidecut_radius"]["left"]["value"].is_null()); // a rectangle is straight
}

TEST_CASE("result.json is read back whole: writing it again gives the same bytes") {
    SolvedBoard solved = tests::solved_example();
    solved.board.limits["full-twist"] = {1.0, 1.3};
    solved.board.limits["sidecut_radius"] = {5, {}}; // the side is straight: no number
    const std::string text = result_json(solved, {"a"}, 0.5);
    const auto found = read_whole<FoundResult>(text, "result.json", "cases");
    CHECK(json_text(written(found)) == text);
    CHECK(found.cases.find("centre-flex")->second.numbers.find("stiffness")->second.unit == "N/mm");
    REQUIRE(found.limits.size() == 2);
    CHECK(std::isinf(found.limits.back().found->value));
}

TEST_CASE("limits are written with what was found and whether it is exceeded") {
    SolvedBoard solved = tests::solved_example();
    solved.board.limits["full-twist"] = {1.0, 1.3};
    solved.board.limits["centre-flex"] = {7.511, {}};
    solved.board.limits["nose-flex"] = {1.0, {}};
    const Json limits = Json::parse(result_json(solved, {}, 0))["limits"];
    CHECK(limits["full-twist"]["exceeded"] == true);
    CHECK(limits["full-twist"]["max"] == 1.3);
    CHECK(limits["centre-flex"]["exceeded"] == false);
    CHECK(limits["centre-flex"]["resolved"] == false); // 7.5123 +- 0.004 may lie on either side
    CHECK_FALSE(limits["nose-flex"].contains("exceeded"));
}
