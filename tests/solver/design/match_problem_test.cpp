// What people are told of a target that is missed.
#include "solver/design/match_problem.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a miss is told in percent of the bound, of a position in millimetres") {
    MatchProblem problem;
    problem.numbers = {{.kind = NumberId::Kind::bench_case, .bench_case = "nose-flex"},
                       {.kind = NumberId::Kind::balance_x},
                       {.kind = NumberId::Kind::shape}};
    problem.measures = {{true, 30}, {false, 0.1}, {false, 0.1}};
    const Window flex{0, 400, 500};
    CHECK(told_miss(problem, flex, 57.38) == Approx(100 * (400 - 57.38) / 400));
    CHECK(told_miss(problem, flex, 1000) == Approx(100));
    CHECK(told_miss(problem, flex, 450) == 0);
    CHECK(told_miss(problem, {1, 0.001, 0.002}, -0.0035) == Approx(4.5)); // mm
    CHECK(told_miss(problem, {1, 0, 0}, 1e-9) == Approx(1e-6));
    CHECK(told_miss(problem, {0, -HUGE_VAL, 1.2}, 1.2) == 0);
}

TEST_CASE("a bound is kept when ten digits show it kept, however large the number was at first") {
    MatchProblem problem;
    problem.numbers = {{.kind = NumberId::Kind::mass}};
    problem.measures = {{false, 5000}}; // of the start
    const Window least{0, 1.2, HUGE_VAL};
    CHECK(told_miss(problem, least, 1.2 * (1 - 1e-11)) == 0);
    CHECK(told_miss(problem, least, 1.19999) == Approx(100 * 1e-5 / 1.2));
    CHECK(told_miss(problem, least, 1.2 * (1 - 1e-8)) == Approx(1e-6));
}
