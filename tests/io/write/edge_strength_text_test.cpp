// The printed strength on the edge, against rows written by hand from values written by hand.
#include "io/write/strength_report.hpp"

#include <catch2/catch.hpp>

#include "tests/io/write/strength_example.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string on_edge = "edge 60 deg 800 N 5 N/mm3";

EdgeStrengthResult one_condition() {
    EdgeStrengthResult result;
    result.conditions = {edge_strength_example()};
    return result;
}

EdgeFailure failure_at(double load, double error) {
    EdgeFailure failure;
    failure.load = {load, error, Unit::force};
    failure.places.first = failure.places.breaks = index_place();
    failure.places.first->layer = "lower";
    failure.places.breaks->layer = "core";
    failure.places.slope = 0.0789;
    return failure;
}

std::string on_one_line(const EdgeStrengthResult& result) {
    return squeezed(edge_strength_text(result));
}

} // namespace

TEST_CASE("an index on the edge has its bar, place, ply and mode") {
    EdgeStrengthResult result = one_condition();
    IndexPlaces& places = result.conditions[0].places;
    CHECK(text_row(edge_strength_text(result), on_edge + " first") ==
          on_edge + " first 0.817 0.012 318, -40 lower glass, 45 crack across");
    places.first->resolved = false;
    places.first->at_clamp = places.first->at_outline = true;
    CHECK(text_row(edge_strength_text(result), on_edge + " first") ==
          on_edge + " first 0.817 not resolved 318, -40 lower glass, 45 crack across, at the "
                    "clamp, at the outline");
    places.away = places.breaks = index_place();
    places.away->index.value = 0.7;
    places.breaks->index.value = 0.3;
    places.next = {index_place(), index_place()};
    places.next[1].index.value = 0.5;
    CHECK(text_rows_between(edge_strength_text(result), on_edge + " first", on_edge)
              .at(2)
              .starts_with("breaks 0.300"));
    places.first->place.aside = places.first->place.diameter; // at a foot
    const auto rows = text_rows_between(edge_strength_text(result), on_edge + " first", on_edge);
    REQUIRE(rows.size() == 4);
    CHECK(rows[0].starts_with("away from feet and snow 0.700"));
    CHECK(rows[1].starts_with("next 0.817"));
    CHECK(rows[2].starts_with("next 0.500"));
    CHECK(rows[3].starts_with("breaks 0.300"));
}

TEST_CASE("a load to failure has its bar in percent and the place of its own state") {
    EdgeStrengthResult result = one_condition();
    result.conditions[0].places.first.reset(); // so that the rows below are the failure's
    result.conditions[0].failure = failure_at(2345.6, 46.9);
    result.conditions[0].broken = failure_at(4000, 400);
    result.conditions[0].broken->places.breaks->resolved = false;
    const std::string text = edge_strength_text(result);
    CHECK(text_row(text, on_edge + " first") ==
          on_edge + " first 2346 2.0 % 318, -40 lower, 45 crack across");
    CHECK(text_row(text, "breaks") == "breaks 4000 not resolved 318, -40 core, 45 crack across");
    CHECK_THAT(text, !Contains("The highest failure index"));
    result.conditions[0].failure->load.error = HUGE_VAL;
    CHECK_THAT(text_row(edge_strength_text(result), on_edge + " first"), Contains("not resolved"));
}

TEST_CASE("a load that is not reached has no row but a note with the index at the largest load") {
    EdgeStrengthResult result = one_condition();
    EdgeStrength& one = result.conditions[0];
    one.failure = failure_at(1e5, 0);
    one.failure->why_not = "the board tips over";
    one.broken = one.failure;
    one.broken->places.breaks.reset();
    CHECK_THAT(edge_strength_text(result), !Contains("The load on both feet"));
    const std::string text = on_one_line(result);
    CHECK_THAT(text, Contains(on_edge + ": failure is not reached: the board tips over; at 100000 "
                                        "N the index is 0.817"));
    CHECK_THAT(text, Contains(on_edge + ": breaking is not reached: the board tips over; at 100000 "
                                        "N nothing is under load"));
    CHECK_THAT(text, !Contains("raised to failure"));
}

TEST_CASE("a slope above the limit is a warning in small motion and a fact in large motion") {
    EdgeStrengthResult result = one_condition();
    EdgeStrength& one = result.conditions[0];
    CHECK_THAT(on_one_line(result), Contains(on_edge + ": the steepest slope is 0.046 edge:"));
    one.failure = failure_at(2000, 20);
    CHECK_THAT(on_one_line(result),
               Contains(on_edge + " raised to failure: the steepest slope is 0.079"));
    one.failure->places.slope = 0.1503;
    CHECK_THAT(on_one_line(result), Contains("the steepest slope is 0.1503, above 0.15: turns"));
    one.failure->places.slope = 0.161;
    const std::string warning = "warning: " + on_edge +
                                " raised to failure: the steepest slope is 0.16, above 0.15: turns "
                                "that large are not modelled, but with --bent";
    CHECK_THAT(on_one_line(result), Contains(warning));
    result.bent = true;
    CHECK_THAT(on_one_line(result), !Contains("warning"));
}

TEST_CASE("without equilibrium, or without a layer to judge, that is all that is said") {
    EdgeStrengthResult result = one_condition();
    result.conditions.push_back(edge_strength_example());
    result.conditions[0].places.first.reset();
    result.conditions[1].no_equilibrium = "the load stands outside";
    const std::string text = on_one_line(result);
    CHECK_THAT(text, Contains(on_edge + ": nothing judged"));
    CHECK_THAT(text, Contains(on_edge + ": no equilibrium: the load stands outside"));
    CHECK_THAT(text, !Contains("slope") && !Contains("before any load"));
    result.before_load = true;
    CHECK_THAT(on_one_line(result), Contains("over the limit before any load"));
}
