// A board's strength on its edge.
#include "solver/edge_strength.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "solver/loaded_edge.hpp"
#include "solver/mesh_request.hpp"
#include "tests/solver/glass_strip.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

EdgeCondition condition(Side side, double degrees, double force, double hardness = 5e9) {
    EdgeCondition one;
    one.side = side;
    one.tilt = degrees * std::numbers::pi / 180;
    one.force = force;
    one.hardness = hardness;
    return one;
}

EdgeStrengthOptions quick() {
    EdgeStrengthOptions options;
    options.threads = 1;
    options.degree = 2;
    options.max_size = 0.08;
    return options;
}

EdgeStrength strength_of(const Board& board, const EdgeCondition& one,
                         const EdgeStrengthOptions& options = quick()) {
    return run_edge_strength(board, {one}, options).conditions.front();
}

// Bending moment and shear force of the whole section of the strip [N m, N].
Eigen::Vector2d across(const LoadedEdge& state, DiscMaker& maker, SectionCache& sections,
                       double x) {
    constexpr int parts = 48;
    constexpr double width = 0.24;
    Eigen::Vector2d sum(0, 0);
    for (int i = 0; i < parts; ++i) {
        const Eigen::Vector2d at(x, width * ((i + 0.5) / parts - 0.5));
        const Disc disc = maker.at(at).value();
        const auto strain = mean_strain(disc, state.strain, state.held.quads).value();
        const Section<double>& section = sections.section(disc.stack, at);
        sum(0) += (section.B * strain.head<3>() + section.D * strain.segment<3>(3))(0);
        sum(1) += (section.S * strain.tail<2>())(1);
    }
    return sum * width / parts;
}

Board scaled(Board board, double by) {
    for (auto& [name, material] : board.materials) {
        for (auto strength : {&Strengths::Xt, &Strengths::Xc, &Strengths::Yt, &Strengths::Yc,
                              &Strengths::S12, &Strengths::S13, &Strengths::S23}) {
            if (auto& value = material.strengths.*strength) {
                *value *= by;
            }
        }
    }
    return board;
}

} // namespace

TEST_CASE("the strains of a board on its edge balance the snow that presses beyond a section") {
    Board board = tests::glass_strip(0);
    const EdgeCondition one = condition(Side::left, 50, 900);
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    EdgeOptions options;
    options.threads = 1;
    options.motion = true;
    const Mesh mesh = mesh_planform(board, edge_mesh_request(layup, 0.03));
    PlateModel model = make_model(mesh, 3, sections);
    auto tree = std::make_shared<const EliminationTree>(
        footed_tree(model.numbering, board.stance->rear(), board.stance->front()));
    LoadedEdges edges(board, options, std::move(model), tree);
    const LoadedEdge state = edges.at(one);
    REQUIRE(state.result.no_equilibrium.empty());
    const double x = board.stance->front() + 0.1; // beyond the front foot
    double wanted = 0;                            // of the snow about the line there [N m]
    const EdgeCurve& curve = state.result.curve;
    for (Eigen::Index i = 0; i < curve.q.size(); ++i) {
        if (curve.x(i) > x) {
            wanted += curve.q(i) * curve.ds(i) * std::cos(one.tilt) * (curve.x(i) - x);
        }
    }
    REQUIRE(wanted > 2);
    DiscMaker maker(mesh, sections);
    const Eigen::Vector2d beyond = across(state, maker, sections, x);
    double pressed = 0;
    for (Eigen::Index i = 0; i < curve.q.size(); ++i) {
        pressed += curve.x(i) > x ? curve.q(i) * curve.ds(i) * std::cos(one.tilt) : 0;
    }
    // between the feet, which bear a load each and no moment
    const double middle = 0.05;
    double turned = -one.force * one.share * (board.stance->front() - middle);
    for (Eigen::Index i = 0; i < curve.q.size(); ++i) {
        if (curve.x(i) > middle) {
            turned += curve.q(i) * curve.ds(i) * std::cos(one.tilt) * (curve.x(i) - middle);
        }
    }
    CHECK(across(state, maker, sections, middle)(0) == Approx(-turned).margin(0.02 * wanted));
    // pressed up beyond the line: k = -w'' is below 0 there, and so is M
    CHECK(beyond(0) == Approx(-wanted).epsilon(0.02));
    CHECK(std::abs(beyond(1)) == Approx(pressed).epsilon(0.05));
    CHECK(distance_to(state.held, {board.stance->front(), 0.0}) == 0);
    CHECK(distance_to(state.held, {board.stance->front() + 0.08, 0.0}) ==
          Approx(0.08 - board.stance->foot_length / 2));
}

TEST_CASE(
    "on the other edge the mirror image of a board has the same index at the mirrored place") {
    const IndexPlaces one =
        strength_of(tests::glass_strip(0.6), condition(Side::left, 55, 1000)).places;
    const IndexPlaces two =
        strength_of(tests::glass_strip(-0.6), condition(Side::right, 55, 1000)).places;
    for (const auto part : {&IndexPlaces::first, &IndexPlaces::away, &IndexPlaces::breaks}) {
        REQUIRE(one.*part);
        REQUIRE(two.*part);
        CHECK((one.*part)->index.value == Approx((two.*part)->index.value).epsilon(1e-5));
        CHECK((one.*part)->place.mode == (two.*part)->place.mode);
        CHECK((one.*part)->place.at.x() == Approx((two.*part)->place.at.x()).margin(1e-4));
        CHECK((one.*part)->place.at.y() == Approx(-(two.*part)->place.at.y()).margin(1e-4));
    }
    CHECK(one.first->at_clamp);
    CHECK_FALSE(one.away->at_clamp);
    CHECK(one.away->place.aside > one.away->place.diameter);
    CHECK(one.away->index.value <= one.first->index.value);
}

TEST_CASE(
    "twice the strengths quarter the index at the same load; raised to failure it is 1 there, "
    "and not where half the load would have it") {
    const Board board = tests::glass_strip(0.6);
    const EdgeCondition one = condition(Side::left, 50, 600, 2e8);
    EdgeStrengthOptions options = quick();
    options.to_failure = true;
    const EdgeStrength found = strength_of(board, one, options);
    REQUIRE(found.failure);
    REQUIRE(found.failure->why_not.empty());
    REQUIRE(found.broken);
    const double load = found.failure->load.value;
    CHECK(found.failure->places.first->index.value == Approx(1).epsilon(3e-3));
    CHECK(found.failure->load.error > 0);
    CHECK(found.broken->places.breaks->index.value == Approx(1).epsilon(3e-3));
    CHECK(found.broken->load.value >= load * 0.999);
    const EdgeCondition there = condition(Side::left, 50, load, 2e8);
    CHECK(strength_of(board, there).places.first->index.value == Approx(1).epsilon(0.01));
    CHECK(strength_of(scaled(board, 2), there).places.first->index.value ==
          Approx(0.25).epsilon(0.01));
    // contact is no multiple of the load
    const double half =
        strength_of(board, condition(Side::left, 50, load / 2, 2e8)).places.first->index.value;
    CHECK(half > 0.1);
    CHECK(half < 0.6);
    CHECK(std::abs(half - 0.25) > 0.005);
}

TEST_CASE("what cannot be reached is told with the largest load") {
    EdgeStrengthOptions options = quick();
    options.to_failure = true;
    Board board = scaled(tests::glass_strip(0.6), 1e4);
    board.materials.at("poplar").E3 = 1e20; // no face wrinkles on that
    const EdgeStrength found = strength_of(board, condition(Side::left, 50, 600, 5e8), options);
    REQUIRE(found.failure);
    CHECK_THAT(found.failure->why_not, Contains("largest load"));
    CHECK(found.failure->load.value == Approx(largest_edge_load));
    CHECK(found.failure->places.first->index.value < 0.9);
}

TEST_CASE("the face that the snow bends in gives by compression, the other by tension") {
    Board board = tests::glass_strip(0);
    const EdgeCondition one = condition(Side::left, 50, 900);
    const auto weak = [&](std::optional<double> Strengths::*strength, double value) {
        Board changed = board;
        changed.materials.at("e-glass-epoxy-ud-45").strengths.*strength = value;
        return *strength_of(changed, one).places.first;
    };
    // pressed up beyond the feet and between them: at the feet the upper face is pressed
    const IndexPlace pressed = weak(&Strengths::Xc, 2e7);
    CHECK(pressed.place.mode == FailureMode::fibre_compression);
    CHECK(pressed.layer == "upper");
    const IndexPlace pulled = weak(&Strengths::Xt, 2e7);
    CHECK(pulled.place.mode == FailureMode::fibre_tension);
    CHECK(pulled.layer == "lower");
}

TEST_CASE("in large motion a small load has the index of small motion") {
    const Board board = tests::glass_strip(0.6);
    EdgeCondition one = condition(Side::left, 50, 4);
    const EdgeStrengthOptions options = quick();
    const IndexPlace small = *strength_of(board, one, options).places.first;
    one.bent = true;
    const IndexPlace large = *strength_of(board, one, options).places.first;
    CHECK(large.place.mode == small.place.mode);
    // two elements: the bent one ties its membrane strain too
    CHECK(large.index.value == Approx(small.index.value).epsilon(0.05));
}

TEST_CASE("stress from the press adds to the edge's; without [cure] it is refused") {
    Board board = tests::glass_strip(0.6);
    const EdgeCondition one = condition(Side::left, 50, 600);
    EdgeStrengthOptions options = quick();
    options.cooled = "release";
    CHECK_THROWS_AS(strength_of(board, one, options), InputError);
    board.materials.at("e-glass-epoxy-ud-45").strengths.Yt = 4e6; // cracks across first
    board.cure = Cure{};
    board.cure->room = 20;
    board.cure->stress_free = 20; // nothing to cool by
    const IndexPlace none = *strength_of(board, one, options).places.first;
    CHECK(none.index.value ==
          Approx(strength_of(board, one).places.first->index.value).epsilon(1e-6));
    board.cure->stress_free = 80;
    const IndexPlace cooled = *strength_of(board, one, options).places.first;
    CHECK(std::abs(cooled.index.value / none.index.value - 1) > 0.01);
    board.stance.reset();
    CHECK_THROWS_AS(strength_of(board, one), InputError);
}
