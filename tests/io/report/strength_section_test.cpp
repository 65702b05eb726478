#include "io/report/strength_pictures.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

// Two cells of one row on a board of 100 x 20 mm, a glass ply on a strip of wood.
const std::string document = R"({
 "caution": "Take care.", "format": 1, "program": "vrid", "board": {"name": "b", "hash": "1"},
 "criterion": "tsai-hill", "residual": null,
 "strength": {"nose-flex": {
  "first": {"value": 120.0, "error": 1.2, "unit": "N", "x_mm": 20, "y_mm": 4, "both_sides": true,
    "layer": "glass", "ply": 1, "ply_deg": 45, "z_mm": 2.5, "mode": "crack across",
    "at_clamp": false, "at_outline": true, "resolved": true, "sign": -1},
  "next": [], "not_judged": ["base"], "residual": false, "before_load": false,
  "lowest_load": [[120.0, null]],
  "through": [
   {"layer": "core", "ply": 1, "ply_deg": 0, "z_mm": [0, 2], "stress_MPa": {},
    "parts": [{"material": "poplar",
      "stress_MPa": {"1": [-30, 10], "2": [0, 1], "12": [0, 0], "13": [0, 2, 1], "23": [0, 0, 0]},
      "strengths_MPa": {"Xt": 80, "Xc": 40, "Yt": 3, "Yc": 5, "S12": 7}}]},
   {"layer": "glass", "ply": 1, "ply_deg": 45, "z_mm": [2, 2.5], "stress_MPa": {},
    "parts": [{"material": "e-glass",
      "stress_MPa": {"1": [10, 60], "2": [20, 30], "12": [0, 9], "13": [1, 0.5, 0], "23": [0, 0, 0]},
      "strengths_MPa": null}]}]}},
 "grid": {"x_mm": [-50, 0, 50], "right_mm": [-10, -10, -10], "left_mm": [10, 10, 10], "rows": 1}})";

std::string changed(const std::string& from, const std::string& to) {
    std::string text = document;
    text.replace(text.find(from), from.size(), to);
    return text;
}

} // namespace

TEST_CASE("a strength's page says place, ply, way, what is not judged, and each stress beside what "
          "the ply bears") {
    const StrengthFindings found = read_strength_json(document, "strength.json");
    const std::string html = strength_section(found, {}, "s");
    CHECK_THAT(html, Contains("Take care.") && Contains("Not judged") && Contains("base"));
    CHECK_THAT(html, Contains("120.0 N") && Contains("against it") && Contains("20, &plusmn;4"));
    CHECK_THAT(html,
               Contains("glass, ply 1 at 45 deg") && Contains("crack across, at the outline"));
    CHECK_THAT(html, Contains("poplar bears -40 to 80 MPa"));
    CHECK_THAT(html, Contains("75 % of 40")); // 30 of 40 under compression, not 10 of 80
    CHECK_THAT(html, Contains("not judged"));
    CHECK_THAT(html, Contains("class=\"M5\"") && !Contains("class=\"M4\"")); // null is not drawn
    CHECK_THAT(html, !Contains("nan") && !Contains("inf"));
}

TEST_CASE("the use of a strength goes by the sign of the stress; von Mises's shear of a metal") {
    const StrengthFindings found = read_strength_json(document, "strength.json");
    const StressedPart& wood = (*found.strength[0].through)[0].parts[0];
    CHECK(strength_use(wood, "1").share == Approx(0.75));
    CHECK(strength_use(wood, "1").stress == -30);
    CHECK(strength_use(wood, "2").share == Approx(1.0 / 3));
    CHECK(strength_use(wood, "13").strength == 0); // S13 is not known
    StressedPart metal = wood;
    metal.strengths_MPa.emplace(Named<double>{{"Xt", 300}, {"Xc", 300}});
    metal.stress_MPa["12"] = {0, 100};
    CHECK(strength_use(metal, "12").share == Approx(std::sqrt(3.0) / 3));
    CHECK(strength_use(metal, "2").strength == 300);
}

TEST_CASE("a damaged strength.json is refused") {
    CHECK_THROWS_AS(read_strength_json("{", "s"), InputError);
    CHECK_THROWS_AS(read_strength_json(changed("[120.0, null]", "[120.0]"), "s"), InputError);
    CHECK_THROWS_AS(read_strength_json(changed("[-50, 0, 50]", "[-50, -50, 50]"), "s"), InputError);
    CHECK_THROWS_AS(read_strength_json(changed("[-30, 10]", "[-30]"), "s"), InputError);
    CHECK_THROWS_AS(read_strength_json(changed("\"z_mm\": [0, 2]", "\"z_mm\": [2, 2]"), "s"),
                    InputError);
    CHECK_THROWS_AS(read_strength_json(changed("\"value\": 120.0", "\"value\": \"x\""), "s"),
                    InputError);
}

TEST_CASE(
    "conditions on the edge stand in a table: index, place, the load at which it is 1, or why "
    "there is none") {
    const std::string place = R"("x_mm": 318, "y_mm": 58, "layer": "core", "ply": 1, "ply_deg": 0,
        "z_mm": 2, "mode": "crush across", "at_clamp": true, "at_outline": false, "resolved": false)";
    const std::string condition = R"("angle_deg": 60, "force_N": 800, "hardness": 5, "share": 0.5,
        "side": "left", "law": "volume", )";
    const std::string edge = R"("edge": [
        {"name": "edge 60 deg 800 N", )" +
                             condition + R"("before_load": false, "not_judged": [],
         "first": {"index": 3.514, "error": null, )" +
                             place + R"(},
         "to_failure": {"first": {"value": 350.2, "error": 4.1, "unit": "N"}}},
        {"name": "edge 80 deg 800 N", )" +
                             condition + R"("no_equilibrium": "the board lies <down>"}],)";
    std::string text = document;
    text.insert(text.find("\"strength\""), edge);
    const StrengthFindings found = read_strength_json(text, "strength.json");
    REQUIRE(found.edge->size() == 2);
    const std::string html = strength_section(found, {}, "s");
    CHECK_THAT(html, Contains("edge 60 deg 800 N") && Contains("<td>3.51</td>") &&
                         Contains("not resolved") && Contains("318, 58, at a foot") &&
                         Contains("crush across") && Contains("350 N"));
    CHECK_THAT(html, Contains("no equilibrium") && Contains("the board lies &lt;down&gt;"));
    CHECK_THAT(html, !Contains("nan"));
    CHECK(edge_strength_table({}).empty());
}
