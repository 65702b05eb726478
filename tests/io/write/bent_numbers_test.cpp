// Numbers of the bent board, against rows written by hand.
#include "io/write/solved_board.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

StudyResult bent_by_hand() {
    StudyResult study;
    BentCase flex;
    flex.name = "centre-flex";
    flex.travel = 0.0605;
    flex.numbers = {{"force", {450, 2, Unit::force}},
                    {"stiffness", {7500, 30, Unit::bending_stiffness}},
                    {"flattening", {-0.0012, 0.00003, Unit::length}}};
    BentCase twist;
    twist.name = "stance-twist";
    twist.travel = 0.04;
    twist.numbers = {{"stiffness", {180, HUGE_VAL, Unit::twist_stiffness}}};
    study.bent = {flex, twist};
    return study;
}

} // namespace

TEST_CASE("a bent case is named by its travel in mm: a flex at it, a twist while bent so far") {
    const StudyResult study = bent_by_hand();
    CHECK(bent_name(study.bent[0]) == "centre-flex at 60.5 mm");
    CHECK(bent_name(study.bent[0], "force") == "centre-flex at 60.5 mm.force");
    CHECK(bent_name(study.bent[1]) == "stance-twist bent 40 mm");
}

TEST_CASE("a bent board's table names a case once and gives every number its bar") {
    const auto rows = text_rows(bent_text(bent_by_hand()));
    REQUIRE(rows.size() == 5);
    CHECK(rows[1] == "centre-flex at 60.5 mm force 450 +- 2 N");
    CHECK(rows[2] == "stiffness 7.50 +- 0.03 N/mm");
    CHECK(rows[3] == "flattening -1.20 +- 0.03 mm");
    CHECK(rows[4] == "stance-twist bent 40 mm stiffness 3.142 no bar N m/deg");
    CHECK(bent_text({}).empty());
}

TEST_CASE("bend.csv has a row a case and travel; what a case does not have stays empty") {
    CHECK(bend_csv(bent_by_hand()) == "case,travel_mm,force_N,stiffness,tangent,flattening_mm\n"
                                      "centre-flex,60.5,450,7.5,,-1.2\n"
                                      "stance-twist,40,,3.14159265,,\n");
}
