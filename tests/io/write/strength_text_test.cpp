// The printed strength, against rows written by hand from values written by hand.
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/write/strength_example.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

CaseStrength& first_case(BoardStrength& strength) {
    return strength.result.cases.front();
}

std::string printed(const BoardStrength& strength) {
    return squeezed(strength_text(strength)); // the lines' breaks are no matter here
}

} // namespace

TEST_CASE("a failure's row has load, bar, travel, sign, place, ply and mode") {
    BoardStrength strength = strength_example();
    FailurePlace& first = *first_case(strength).first;
    CHECK(text_row(strength_text(strength), "nose-flex first") ==
          "nose-flex first 1250 N 2.4 % 45.7 mm + 318, -40 lower glass, 45 crack across");
    first.both_sides = true;
    first.place.sign = -1;
    first.at_outline = true;
    CHECK(text_row(strength_text(strength), "nose-flex first") ==
          "nose-flex first 1250 N 2.4 % 45.7 mm - 318, +-40 lower glass, 45 crack across, at the "
          "outline");
    first.load = {12.344, 1, Unit::moment};
    first.travel = {std::numbers::pi / 30, 0, Unit::angle};
    first.resolved = false;
    first.at_clamp = true;
    first.place.angle = -std::numbers::pi / 6;
    CHECK(text_row(strength_text(strength), "nose-flex first") ==
          "nose-flex first 12.34 N m not resolved 6.00 deg - 318, +-40 lower glass, -30 crack "
          "across, at the clamp, at the outline");
}

TEST_CASE("below the first failure stand the one away from clamps, the next ones and the break") {
    BoardStrength strength = strength_example();
    CaseStrength& one = first_case(strength);
    const auto at_load = [](double load) {
        FailurePlace place = failure_place();
        place.load = {load, load / 100, Unit::force};
        return place;
    };
    one.away = at_load(1300);
    one.next = {at_load(1400), at_load(1500)};
    one.breaks = at_load(2600);
    CHECK_THAT(strength_text(strength), !Contains("away from clamps")); // the first is away itself
    one.first->place.aside = one.first->place.diameter;
    const auto rows = text_rows_between(strength_text(strength), "nose-flex first", "steepest");
    REQUIRE(rows.size() == 4);
    CHECK(rows[0].starts_with("away from clamps 1300 N 1.0 %"));
    CHECK(rows[1].starts_with("next 1400 N"));
    CHECK(rows[2].starts_with("next 1500 N"));
    CHECK(rows[3].starts_with("breaks 2600 N"));
}

TEST_CASE("a bent board's row has its travel and index with the bar of the index") {
    BoardStrength strength = strength_example();
    BentIndex bent;
    bent.bench_case = "centre-flex";
    bent.travel = 0.0605;
    bent.index = {0.8165, 0.0123, Unit::none};
    bent.place = failure_place().place;
    bent.layer = "upper glass";
    strength.result.bent = {bent};
    CHECK(text_row(strength_text(strength), "centre-flex") ==
          "centre-flex 60.50 0.817 0.012 318, -40 upper glass crack across");
    strength.result.bent[0].resolved = false;
    strength.result.bent[0].at_outline = true;
    CHECK(text_row(strength_text(strength), "centre-flex") ==
          "centre-flex 60.50 0.817 not resolved 318, -40 upper glass crack across, at the outline");
}

TEST_CASE("the head names board, criterion, the stress before the load and what is not judged") {
    BoardStrength strength = strength_example();
    const auto head = [&] {
        const std::string text = strength_text(strength);
        const auto at = text.find("\nplank") + 1;
        return text.substr(at, text.find('\n', at) - at);
    };
    CHECK(head() == "plank, Tsai-Hill");
    strength.result.criterion = Criterion::max_stress;
    strength.result.cooled = "release";
    CHECK(head() == "plank, maximum stress, with the stress it has out of the press");
    strength.result.cooled = "cold";
    strength.edge.emplace().bent = true;
    strength.result.not_judged = {"base", "top sheet"};
    strength.result.taken = {"ribbon", "upper glass"};
    CHECK(head() == "plank, maximum stress, with the stress it has in the cold, edge in large "
                    "motion, NOT JUDGED: base, top sheet");
    CHECK_THAT(printed(strength), Contains("not judged: these layers have no strengths"));
    CHECK_THAT(printed(strength), Contains("S12 taken for S13 and S23: ribbon, upper glass"));
}

TEST_CASE("the caution stands above and below every strength") {
    const std::string text = printed(strength_example());
    CHECK(text.starts_with(squeezed(strength_caution())));
    CHECK(text.ends_with(squeezed(strength_caution())));
    CHECK(text.size() > 2 * strength_caution().size());
}

TEST_CASE("a case's notes tell a slope above the limit, a kink, a load given and why it was not "
          "run") {
    BoardStrength strength = strength_example();
    CaseStrength& one = first_case(strength);
    CHECK_THAT(printed(strength), Contains("steepest slope at the first failure: nose-flex 0.12"));
    one.slope = 0.15; // the limit itself
    CHECK_THAT(printed(strength), Contains("steepest slope at the first failure: nose-flex 0.15"));
    one.slope = 0.1502;
    CHECK_THAT(printed(strength), Contains("warning: linear theory is stretched far where the "
                                           "steepest slope at the first failure is above 0.15: "
                                           "nose-flex 0.1502"));
    one.slope = 0.234;
    one.at = IndexAtLoad{500.04, 0.40123, 1};
    CHECK_THAT(printed(strength),
               Contains("nose-flex: at 500.0 N the index is 0.401; 1 is failure"));
    one.at->sign = -1;
    CHECK_THAT(printed(strength), Contains("the index is 0.401 (-); 1 is failure"));
    one.before_load = true;
    CHECK_THAT(printed(strength), Contains("nose-flex: over the limit before any load"));
    one.next = {failure_place()};
    one.next[0].layer = "core";
    one.next[0].place.mode = FailureMode::core_shear;
    CHECK_THAT(printed(strength), !Contains("kink"));
    one.kink = true;
    CHECK_THAT(printed(strength), Contains("nose-flex: core, core shear is within 3 % of the "
                                           "first: the number has a kink there"));
    one.first.reset();
    CHECK_THAT(printed(strength), Contains("nose-flex: nothing judged"));
    one.skipped = "it has no nose";
    CHECK_THAT(printed(strength), Contains("nose-flex skipped: it has no nose"));
}

TEST_CASE("every way to fail has a name of its own") {
    const std::vector<std::pair<FailureMode, std::string>> names{
        {FailureMode::fibre_tension, "fibre tension"},
        {FailureMode::fibre_compression, "fibre compression"},
        {FailureMode::grain_tension, "tension along the grain"},
        {FailureMode::grain_compression, "crush along the grain"},
        {FailureMode::crack_across, "crack across"},
        {FailureMode::crush_across, "crush across"},
        {FailureMode::in_plane_shear, "in-plane shear"},
        {FailureMode::yield, "yield"},
        {FailureMode::core_shear, "core shear"},
        {FailureMode::delamination, "delamination"},
        {FailureMode::wrinkling, "wrinkling"}};
    for (const auto& [mode, name] : names) {
        CHECK(mode_name(mode) == name);
    }
}

TEST_CASE("limits of strength are held against the cases; all others are left to other verbs") {
    BoardStrength strength = strength_example();
    strength.board.limits = {{"strength.nose-flex", {1300, {}}}, {"mass", {{}, 1}}};
    const Verdicts verdicts = strength_verdicts(strength);
    REQUIRE(verdicts.size() == 1);
    CHECK(verdicts[0].name == "strength.nose-flex");
    CHECK(verdicts[0].exceeded); // 1250 N
    CHECK_THAT(strength_text(strength), Contains("EXCEEDED"));
    strength.result.cases.clear();
    CHECK(strength_verdicts(strength).empty());
}

TEST_CASE("a strength of edge conditions alone has what they share with cases, and no sign") {
    EdgeStrengthResult edge;
    edge.not_judged = {"base"};
    edge.taken = {"ribbon"};
    edge.cooled = "cold";
    edge.criterion = Criterion::max_stress;
    const StrengthResult result = without_cases(edge);
    CHECK(result.not_judged == edge.not_judged);
    CHECK(result.taken == edge.taken);
    CHECK(result.cooled == "cold");
    CHECK(result.residual);
    CHECK(result.criterion == Criterion::max_stress);
    edge.cooled.clear();
    CHECK_FALSE(without_cases(edge).residual);
    BoardStrength strength = strength_example();
    CHECK_THAT(printed(strength), Contains("sign: + as the case loads, - against it"));
    strength.result = result;
    CHECK_THAT(printed(strength), !Contains("sign: +"));
}

TEST_CASE(
    "cases with steep first failures are one warning, gentle ones one line; a travel past the "
    "board's length is none") {
    BoardStrength strength = strength_example();
    strength.result.cases.resize(3, first_case(strength));
    std::vector<CaseStrength>& cases = strength.result.cases;
    cases[1].name = "centre-flex";
    cases[1].slope = 0.3;
    cases[2].name = "full-twist";
    cases[2].slope = 1.1;
    cases[2].first->travel = {3.1, 0, Unit::angle};
    CHECK_THAT(printed(strength),
               Contains("first failure is above 0.15: centre-flex 0.30, full-twist 1.1 steepest "
                        "slope at the first failure: nose-flex 0.12 S12") ||
                   Contains("first failure is above 0.15: centre-flex 0.30, full-twist 1.1 "
                            "steepest slope at the first failure: nose-flex 0.12 sign:"));
    CHECK_THAT(printed(strength), Contains("178 deg") && !Contains("past all"));
    cases[1].first->travel.value = 1.21; // the board is 1.2 m long
    cases[2].first->travel.value = 3.2;
    CHECK(text_row(strength_text(strength), "centre-flex first")
              .starts_with("centre-flex first 1250 N 2.4 % past all +"));
    CHECK(text_row(strength_text(strength), "full-twist first")
              .starts_with("full-twist first 1250 N 2.4 % past all +"));
    CHECK_THAT(printed(strength), Contains("past all: a travel longer than the board"));
}
