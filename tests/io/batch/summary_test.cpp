// A batch's summary as table, document and text, against rows written by hand.
#include "io/batch/summary.hpp"

#include <cmath>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Row done_row(const std::string& board, const std::string& variant) {
    Row row;
    row.board = board;
    row.file = board + ".toml";
    row.variant = variant;
    row.key = "key of " + board;
    row.folder = "jobs/" + board;
    row.status = RowStatus::done;
    return row;
}

std::vector<Row> three_rows() {
    Row first = done_row("long", "");
    first.numbers = {{"mass", {3.2, 0.0003, "kg"}}, {"ratio", {0.5, 0, ""}}};
    LimitVerdict verdict;
    verdict.name = "mass";
    verdict.limit = {2.5, 3.1};
    verdict.found = Measured{first.numbers[0].quantity};
    verdict.exceeded = true;
    first.limits = {verdict};
    Row second = done_row("short", "thin, \"soft\"");
    second.numbers = {{"ratio", {0.25, HUGE_VAL, ""}}, {"nose-twist", {9.5, 0.04, "N m/deg"}}};
    second.changes = {{"ratio", {0.2, 0.01, ""}, {0.25, 0.01, ""}, 25, true, true},
                      {"mass", {3.3, 0.01, "kg"}, {3.2, 0.01, "kg"}, -3.03, true, false},
                      {"nose-twist", {9.4, 1, ""}, {9.5, 1, ""}, 1, false, false}};
    second.no_rest = {"edge 80 deg", "edge 70 deg"};
    Row third = done_row("bad", "");
    third.status = RowStatus::failed;
    third.error = "no such material";
    return {first, second, third};
}

} // namespace

TEST_CASE("summary.csv has a column a number in order of appearance, empty where a row has none") {
    CHECK(
        summary_csv(three_rows()) ==
        "board,file,variant,key,status,error,mass [kg],mass error,ratio,ratio error,nose-twist [N "
        "m/deg],nose-twist error,limits exceeded,drift,no equilibrium\n"
        "long,long.toml,,key of long,done,,3.2,0.0003,0.5,0,,,mass,,\n"
        "short,short.toml,\"thin, \"\"soft\"\"\",key of "
        "short,done,,,,0.25,,9.5,0.04,,ratio,edge 80 deg; edge 70 deg\n"
        "bad,bad.toml,,key of bad,failed,no such material,,,,,,,,,\n");
}

TEST_CASE("summary.json has every row with its numbers, limits, changes and what did not rest") {
    const auto all = nlohmann::json::parse(summary_json("suite", three_rows()));
    CHECK(all["suite"] == "suite");
    CHECK_FALSE(all.contains("strength_caution"));
    REQUIRE(all["rows"].size() == 3);
    const auto& first = all["rows"][0];
    CHECK(first["board"] == "long");
    CHECK(first["file"] == "long.toml");
    CHECK(first["key"] == "key of long");
    CHECK(first["folder"] == "jobs/long");
    CHECK(first["status"] == "done");
    CHECK(first["numbers"]["mass"] ==
          nlohmann::json{{"value", 3.2}, {"unit", "kg"}, {"error", 0.0003}});
    CHECK(first["limits"]["mass"]["max"] == 3.1);
    CHECK(first["limits"]["mass"]["exceeded"] == true);
    const auto& second = all["rows"][1];
    CHECK(second["variant"] == "thin, \"soft\"");
    CHECK(second["numbers"]["ratio"]["error"].is_null());
    CHECK(second["changes"]["ratio"] ==
          nlohmann::json{{"before", {{"value", 0.2}, {"unit", ""}, {"error", 0.01}}},
                         {"percent", 25},
                         {"resolved", true},
                         {"drift", true}});
    CHECK(second["changes"]["mass"]["percent"] == -3.03);
    CHECK(second["no_equilibrium"] == nlohmann::json{"edge 80 deg", "edge 70 deg"});
    CHECK(all["rows"][2]["status"] == "failed");
    CHECK(all["rows"][2]["error"] == "no such material");
}

TEST_CASE(
    "summary.json has strength's caution, and of each of its numbers whether it is resolved") {
    auto rows = three_rows();
    rows[2].numbers = {{"strength.nose-flex", {800, 8, "N"}},
                       {"strength.nose-flex.breaks", {127, 118, "N"}, false},
                       {"mass", {3, 0.1, "kg"}}};
    const auto all = nlohmann::json::parse(summary_json("suite", rows));
    CHECK(all.contains("strength_caution"));
    const auto& numbers = all["rows"][2]["numbers"];
    CHECK(numbers["strength.nose-flex"]["resolved"] == true);
    CHECK(numbers["strength.nose-flex.breaks"]["resolved"] == false);
    CHECK_FALSE(numbers["mass"].contains("resolved"));
}

TEST_CASE("the printed summary has what failed, exceeded limits and what moved, drift first") {
    auto rows = three_rows();
    rows.push_back(done_row("later", ""));
    rows[3].status = RowStatus::not_run;
    rows[0].changes = {{"area", {2, 0.1, ""}, {2.02, 0.001, ""}, 1, true, false}};
    CHECK(text_rows(summary_text(rows)) ==
          std::vector<std::string>{
              "failed or not run", "bad: failed", "no such material", "later: not run",
              "no equilibrium", "short, thin, \"soft\": edge 80 deg; edge 70 deg",
              "outside limits number min found max unit", "long mass 2.5 3.2000 3.1 kg",
              "moved number before now percent",
              "short, thin, \"soft\" ratio 0.200 0.250 +25 drift",
              "long area 2.00 2.0200 +1.0 small",
              "short, thin, \"soft\" mass 3.300 3.200 -3.0 small", "2 of 4 done"});
    rows = {done_row("a", "")};
    CHECK(summary_text(rows) == "1 of 1 done\n");
}

TEST_CASE("boards of one name are told apart by their files, in the text and on the page; others "
          "are not burdened with theirs") {
    BatchPlan plan;
    plan.suite = "nightly";
    plan.rows = three_rows();
    for (Row& row : plan.rows) {
        row.status = RowStatus::failed;
        row.error = "no such material";
    }
    plan.rows[1].board = "long";
    CHECK(board_title(plan.rows[0], plan.rows) == "long (long.toml)");
    CHECK(board_title(plan.rows[2], plan.rows) == "bad");
    const std::string page = batch_report(plan, "no-folder");
    CHECK_THAT(summary_text(plan.rows), Contains("long (short.toml)"));
    CHECK_THAT(page, Contains("long (long.toml)") && Contains("long (short.toml)"));
    CHECK_THAT(page, !Contains("bad (bad.toml)"));
}

TEST_CASE("a limit that no row has a number for is named with the nearest; one is enough") {
    auto rows = three_rows();
    LimitVerdict idle;
    idle.name = "nose-twst";
    idle.limit.max = 4;
    rows[0].limits.push_back(idle);
    CHECK_THAT(summary_text(rows), Contains("limits on numbers that no row has\n  \"nose-twst\"; "
                                            "did you mean 'nose-twist'?\n"));
    idle.found = Measured{BenchQuantity{3, 0, ""}};
    rows[1].limits.push_back(idle);
    CHECK_THAT(summary_text(rows), !Contains("no row has"));
    std::swap(rows[0], rows[1]);
    CHECK_THAT(summary_text(rows), !Contains("no row has"));
}

TEST_CASE("what a batch's exit status goes by is looked for in every row") {
    const Row good = done_row("a", "");
    CHECK_FALSE(any_failed({good}));
    CHECK_FALSE(any_exceeded({good}));
    CHECK_FALSE(any_without_rest({good}));
    CHECK_FALSE(any_drift({good}));
    const auto rows = three_rows();
    CHECK(any_failed({good, rows[2]}));
    CHECK(any_failed({Row{}}));
    CHECK(any_exceeded({good, rows[0]}));
    CHECK_FALSE(any_exceeded({rows[1]}));
    CHECK(any_without_rest({good, rows[1]}));
    CHECK(any_drift({good, rows[1]}));
    Row small = rows[1];
    small.changes.erase(small.changes.begin());
    CHECK_FALSE(any_drift({small}));
}

TEST_CASE("of a map of the edge the summary prints each number's worst condition and largest move, "
          "and how many more there are") {
    std::vector<Row> rows(1);
    rows[0].board = "long";
    rows[0].status = RowStatus::done;
    for (const int angle : {30, 45, 60}) {
        const std::string edge = "edge " + std::to_string(angle) + " deg 800 N 5 N/mm3 ";
        LimitVerdict verdict;
        verdict.name = edge + "loss nose";
        verdict.limit.max = 2;
        verdict.found = Measured{{angle / 20.0, 0.01, "deg"}};
        verdict.exceeded = angle > 40;
        rows[0].limits.push_back(verdict);
        const BenchQuantity before{2, 0.01, "N/mm"};
        rows[0].changes.push_back({edge + "peak", before, before, angle / -30.0, true, true});
        rows[0].changes.push_back({edge + "loss nose", before, before, 0.1, true, false});
    }
    CHECK(text_rows(summary_text(rows)) ==
          std::vector<std::string>{
              "outside limits number min found max unit",
              "long edge 60 deg 800 N 5 N/mm3 loss nose 3.000 2 deg in 2 of 3 conditions",
              "moved number before now percent",
              "long edge 60 deg 800 N 5 N/mm3 peak 2.000 2.000 -2.0 drift, less in 2 more",
              "long edge 30 deg 800 N 5 N/mm3 loss nose 2.000 2.000 +0.10 small, less in 2 more",
              "1 of 1 done"});
}

TEST_CASE(
    "a limit on what the suite does not run is told so, not with the nearest of what it ran") {
    std::vector<Row> rows(1);
    rows[0].status = RowStatus::done;
    rows[0].numbers = {{"nose-twist", {9, 0.1, "N m/deg"}},
                       {"strength.nose-twist", {90, 1, "N m"}}};
    for (const char* name : {"strength.nose-flex", "tail-twist", "edge.loss_nose"}) {
        LimitVerdict idle;
        idle.name = name;
        rows[0].limits.push_back(idle);
    }
    const std::string text = summary_text(rows);
    CHECK_THAT(text, Contains("\"strength.nose-flex\": nose-flex is not among the suite's cases"));
    CHECK_THAT(text, Contains("\"tail-twist\": tail-twist is not among the suite's cases"));
    CHECK_THAT(text, Contains("\"edge.loss_nose\": the suite has no [edge]"));
    CHECK_THAT(text, !Contains("did you mean"));
}
