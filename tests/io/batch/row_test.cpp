#include "io/batch/row.hpp"

#include <catch2/catch.hpp>

#include "io/batch/summary.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

// Two conditions, the second without equilibrium, as vrid edge writes them.
const std::string edge_text =
    R"({"format": 1, "program": "vrid", "board": {"name": "b", "hash": "h"},
"conditions": [
 {"name": "edge 45 deg 800 N 5 N/mm3", "angle_deg": 45, "force_N": 800, "hardness": 5, "share": 0.5,
  "side": "left", "law": "volume", "peak": {"value": 4.2, "unit": "N/mm", "error": 0.1},
  "peak_x": {"value": 300, "unit": "mm", "error": 2},
  "loss_nose": {"value": 2.5, "unit": "deg", "error": 0.01}, "balance": 1e-15},
 {"name": "edge 45 deg 800 N 5 N/mm3 share 1", "angle_deg": 45, "force_N": 800, "hardness": 5,
  "share": 1, "side": "left", "law": "volume", "no_equilibrium": "the load stands outside"}],
"limits": {"edge 45 deg 800 N 5 N/mm3 peak": {"max": 4, "value": 4.2, "unit": "N/mm", "error": 0.1,
  "exceeded": true, "resolved": true}},
"mesh": {}, "warnings": []})";

const std::string curve_text =
    "condition,x_mm,y_mm,q_Npmm,depth_mm,angle_deg,w_mm,side,edging_deg,force_N,hardness,share\n"
    "1,-500,140,0,0,42,0,left,45,800,5,0.5\n1,500,140,4.2,1,43,0,left,45,800,5,0.5\n";

} // namespace

TEST_CASE("an edge folder's row has the numbers to watch and the conditions without rest") {
    const TestFolder folder("edge-row");
    REQUIRE_FALSE(folder.write("edge.json", edge_text).empty());
    Row row;
    row.status = RowStatus::done;
    read_result(row, read_folder(folder.path()));
    REQUIRE(row.numbers.size() == 2); // neither the place of the peak nor the balance
    CHECK(row.numbers[0].name == "edge 45 deg 800 N 5 N/mm3 peak");
    CHECK(row.numbers[1].name == "edge 45 deg 800 N 5 N/mm3 loss nose");
    CHECK(row.numbers[1].quantity.error == 0.01);
    REQUIRE(row.no_rest.size() == 1);
    CHECK(any_without_rest({row}));
    CHECK_FALSE(any_without_rest({Row{}}));
    REQUIRE(row.limits.size() == 1);
    CHECK(row.limits[0].exceeded);
    Row known = row;
    read_result(known, read_folder(folder.path())); // a verdict known already is not told twice
    CHECK(known.limits.size() == 1);
    CHECK_THAT(folder_report(folder.path()), Contains("Outside its limits"));
    CHECK_THAT(summary_text({row}), Contains("no equilibrium") && Contains("share 1"));
    CHECK_THAT(summary_csv({row}), Contains(",edge 45 deg 800 N 5 N/mm3 share 1\n"));
    CHECK_THAT(summary_json("s", {row}), Contains("\"no_equilibrium\": ["));
}

TEST_CASE("a strength whose bar is not resolved is shown so in every table of the page") {
    const TestFolder folder("strength-row");
    const std::string place = R"("x_mm": 20, "y_mm": 4, "both_sides": true, "layer": "glass",
      "ply": 1, "ply_deg": 45, "z_mm": 2, "mode": "shear", "at_clamp": false, "at_outline": false,
      "sign": 1, "travel_unit": "mm", "value": )";
    const std::string written = R"({"caution": "Take care.", "format": 1, "program": "vrid",
 "board": {"name": "b", "hash": "1"}, "criterion": "tsai-hill", "residual": null,
 "strength": {"nose-flex": {
  "first": {)" + place + R"(127, "error": 118, "unit": "N", "travel": 47, "travel_error": 4,
    "resolved": false},
  "breaks": {)" + place + R"(800, "error": 7, "unit": "N", "travel": 300, "travel_error": 3,
    "resolved": true}}}})";
    REQUIRE_FALSE(folder.write("strength.json", written).empty());
    const std::string page = folder_report(folder.path());
    for (const char* bar : {"118", "4"}) {
        CHECK_THAT(page, !Contains("&plusmn;&#8239;" + std::string(bar) + "<") &&
                             !Contains("\u00b1 " + std::string(bar) + "\""));
    }
    CHECK_THAT(page, Contains("<td>127 <span class=\"bar\">not resolved</span>"));
    CHECK_THAT(page, Contains("<td>47 <span class=\"bar\">not resolved</span>"));
    CHECK_THAT(page, Contains("</td><td class=\"bar\">not resolved</td><td>mm"));
    CHECK_THAT(page, Contains("47, not resolved\""));
    CHECK_THAT(page, Contains("<td>800 <span class=\"bar\">&plusmn;&#8239;7</span>"));
}

TEST_CASE("curves of the edge go to their conditions; a cut-off line is named") {
    const TestFolder folder("edge-states");
    REQUIRE_FALSE(folder.write("edge.json", edge_text).empty());
    REQUIRE_FALSE(folder.write("edge.csv", curve_text).empty());
    const FoundEdge edge = read_folder(folder.path()).edge.value();
    const std::string curves = folder.path() + "/edge.csv";
    const std::vector<EdgeState> states = edge_states(edge, curves);
    REQUIRE(states.size() == 2);
    CHECK(states[0].stand == "left edge");
    CHECK(states[0].snow == "5 N/mm3");
    CHECK(states[0].x == std::vector<double>{-500, 500});
    CHECK(states[0].force_line == std::vector<double>{0, 4.2});
    CHECK(states[1].x.empty());
    CHECK_THAT(states[1].stand, Contains("share of the front foot 1"));
    CHECK(edge_states(edge, folder.path() + "/none").front().x.empty());
    REQUIRE_FALSE(folder.write("edge.csv", curve_text + "1,600,14").empty());
    CHECK_THROWS_WITH(edge_states(edge, curves),
                      Contains("edge.csv:4") && Contains("found 3 cells; accepted: 12"));
}

TEST_CASE("an edge without any contact, or of one point, makes a page and no broken picture") {
    const TestFolder folder("edge-page");
    REQUIRE_FALSE(folder.write("edge.json", edge_text).empty());
    for (const std::string& curve : {std::string(), curve_text}) {
        ReportRow row;
        row.board = "b";
        if (!curve.empty()) {
            REQUIRE_FALSE(folder.write("edge.csv", curve).empty());
        }
        row.edge =
            edge_states(read_folder(folder.path()).edge.value(), folder.path() + "/edge.csv");
        const std::string page = report_html({"b", "vrid", {row}, false});
        CHECK_THAT(page, Contains("The map: edging angle, load and snow") && Contains(">none<"));
        CHECK(page.find("nan") == std::string::npos);
        CHECK(page.find("inf,") == std::string::npos);
    }
}

TEST_CASE("a damaged edge.json is refused with its name and what is wrong") {
    const TestFolder folder("edge-damage");
    const auto refused = [&](const std::string& from, const std::string& to,
                             const std::string& why) {
        std::string text = edge_text;
        REQUIRE(text.find(from) != std::string::npos);
        text.replace(text.find(from), from.size(), to);
        REQUIRE_FALSE(folder.write("edge.json", text).empty());
        CHECK_THROWS_WITH(read_folder(folder.path()),
                          Contains("edge.json: is damaged: ") && Contains(why));
    };
    refused("\"share\": 0.5,", "", "'share' not found");
    refused("\"force_N\": 800", "\"force_N\": \"800\"", "must be number");
    refused("{\"value\": 4.2,", "{\"was\": 4.2,", "'value' not found");
    refused("{\"value\": 300, \"unit\": \"mm\", \"error\": 2}", "null",
            "cannot use at() with null");
    refused("\"warnings\": []", "\"warnings\": null", "'warnings' is no list");
    refused("\"mesh\": {}", "\"mesh\": 3", "'mesh' is no table");
}

TEST_CASE("each of a file's problems starts a line of its own, and boards of one name have files") {
    Row one;
    one.board = "twin";
    one.file = "a.toml";
    one.status = RowStatus::failed;
    one.error = "a.toml:1:1: format: missing\na.toml:2:1: name: missing";
    Row two = one;
    two.file = "b.toml";
    two.variant = "thick";
    two.error = "none";
    CHECK_THAT(summary_text({one, two}),
               Contains("  twin (a.toml): failed\n    a.toml:1:1: format: missing\n"
                        "    a.toml:2:1: name: missing\n  twin (b.toml), thick: failed\n"));
    CHECK_THAT(summary_text({one}), Contains("  twin: failed\n"));
}

TEST_CASE(
    "what a baseline cannot judge is told: rows that are new, that failed there, that are gone") {
    const auto row = [](const std::string& file, const std::string& variant, bool numbers) {
        Row one;
        one.file = file;
        one.variant = variant;
        if (numbers) {
            one.numbers = {{"mass", {3.2, 0.0003, "kg"}}};
        }
        return one;
    };
    const std::vector<Row> before{row("a.toml", "", true), row("b.toml", "", true),
                                  row("b.toml", "thick", true), row("c.toml", "", false)};
    const std::vector<Row> now{row("a.toml", "", true), row("new.toml", "", true),
                               row("new.toml", "thick", true), row("c.toml", "", true)};
    CHECK(unmatched_text(now, before) ==
          "not in the baseline, so without drift: new.toml; new.toml, thick; c.toml\n"
          "in the baseline and not in this run: b.toml; b.toml, thick\n");
    CHECK(unmatched_text(before, before).empty());
    std::vector<Row> many;
    for (int i = 0; i < 8; ++i) {
        many.push_back(row(std::to_string(i), "", true));
    }
    CHECK(unmatched_text(many, {}) ==
          "not in the baseline, so without drift: 0; 1; 2; 3; 4; 5 and 2 more\n");
}
