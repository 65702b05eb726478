// One degree of the bent board: from where a lower degree stood, and all the way from rest.
#include "solver/bend.hpp"

#include <catch2/catch.hpp>

#include "solver/cases/degree_run.hpp"
#include "solver/mesh_request.hpp"
#include "solver/study.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("a bent board is the same whether Newton starts from a lower degree, from rest, or is "
          "sent astray") {
    const Board board = example("nh-157-biax");
    StudyOptions options;
    options.cases = {"nose-flex", "nose-twist"};
    options.bend = {0.02, 0.05};
    options.max_size = 0.2;
    const SharedPrepared prepared = prepare_study(board, options);
    std::vector<const BenchCase*> cases;
    for (const std::string& name : options.cases) {
        cases.push_back(&bench_of(name));
    }
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    const auto model_at = [&](int degree) {
        PlateModel model = make_model(prepared->mesh, degree, sections);
        model.rest = shape_of(board, options);
        return model;
    };
    const PlateModel low = model_at(1);
    const PlateModel high = model_at(2);
    const EliminationTree low_tree = elimination_order(low.numbering, prepared->stations);
    const EliminationTree high_tree = elimination_order(high.numbering, prepared->stations);
    const auto high_pass = [&](const BendPass* near) {
        return bend_pass(board, {high, high_tree}, cases, options, near);
    };
    const BendPass near = bend_pass(board, {low, low_tree}, cases, options);
    BendPass astray = near;
    for (BendStop& stop : astray.stops) {
        stop.motion *= -3;
    }
    const BendPass from_rest = high_pass(nullptr);
    REQUIRE(from_rest.cases.size() == 4);
    REQUIRE(near.stops.size() == 2);
    for (const BendPass& other : {high_pass(&near), high_pass(&astray)}) {
        REQUIRE(other.cases.size() == 4);
        for (std::size_t i = 0; i < 4; ++i) {
            const BentCase& one = from_rest.cases[i];
            INFO(one.name << " at " << one.travel);
            for (std::size_t k = 0; k < one.numbers.size(); ++k) {
                CHECK(other.cases[i].numbers[k].quantity.value ==
                      Approx(one.numbers[k].quantity.value).epsilon(1e-8));
            }
        }
    }
}

TEST_CASE("a case at a travel that one of the degrees has not reached is missed, not compared with "
          "another travel") {
    PlateModel model;
    model.reference.p = 3;
    const auto pass = [&](const std::vector<double>& travels) {
        BendPass one;
        one.model = &model;
        for (const double travel : travels) {
            BentCase bent;
            bent.name = "nose-flex";
            bent.travel = travel;
            bent.numbers = {{"force", {100 * travel, 0, Unit::force}}};
            one.cases.push_back(bent);
            one.lines.emplace_back(0, 0, 0);
        }
        return one;
    };
    BendPass fine = pass({0.02, 0.04});
    BendPass coarse = pass({0.04});
    coarse.missed = {{"nose-flex", 0.02, "no way"}};
    fine.missed = {{"nose-flex", 0.06, "no way on"}};
    const Bending bent = with_bars(fine, coarse);
    REQUIRE(bent.cases.size() == 1);
    CHECK(bent.cases[0].travel == 0.04);
    CHECK(bent.cases[0].numbers[0].quantity.error == 0);
    REQUIRE(bent.missed.size() == 2);
    CHECK_THROWS_WITH(throw_if_missed(bent.missed), "bending: no way on\nno way");
}

TEST_CASE("a tangent's bar is no narrower than its force's, however still the tangent keeps") {
    PlateModel model;
    model.reference.p = 3;
    const auto pass = [&](double force, double tangent) {
        BendPass one;
        one.model = &model;
        BentCase bent;
        bent.name = "nose-flex";
        bent.numbers = {{"force", {force, 0, Unit::force}},
                        {"tangent", {tangent, 0, Unit::bending_stiffness}}};
        one.cases = {bent};
        one.lines.emplace_back(0, 0, 0);
        return one;
    };
    const auto bars = [&](const BendPass& coarse) {
        const Bending bent = with_bars(pass(100, 5000), coarse);
        return std::pair(bent.cases[0].numbers[0].quantity.error,
                         bent.cases[0].numbers[1].quantity.error);
    };
    const auto [force, still] = bars(pass(101, 5000));
    CHECK(force == Approx(1)); // the change: the factor of degree 3 is 1
    CHECK(still == Approx(50));
    CHECK(bars(pass(101, 5200)).second == Approx(200));
}
