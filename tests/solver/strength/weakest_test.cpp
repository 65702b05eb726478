#include "solver/strength/weakest.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/solver/system/grid_model.hpp"

using namespace vrid;

TEST_CASE("factor and index say the same, by each criterion's own measure") {
    CHECK(factor_of(0.25, Criterion::tsai_hill) == Approx(2));
    CHECK(factor_of(0.25, Criterion::max_stress) == Approx(4));
    CHECK(index_of(2, Criterion::tsai_hill) == Approx(0.25));
    CHECK(index_of(4, Criterion::max_stress) == Approx(0.25));
}

TEST_CASE("the distance to what is held is that to the nearest line, box or loaded place") {
    HeldParts held;
    CHECK(std::isinf(distance_to(held, {0, 0})));
    held.lines = {-0.5, 0.4};
    CHECK(distance_to(held, {0.1, 9}) == Approx(0.3));
    CHECK(distance_to(held, {-0.45, 9}) == Approx(0.05));
    held.boxes = {Eigen::AlignedBox2d(Eigen::Vector2d(0.2, -0.1), Eigen::Vector2d(0.3, 0.1))};
    CHECK(distance_to(held, {0.17, 0.14}) == Approx(0.05)); // 3-4-5 from its corner
    CHECK(distance_to(held, {0.25, 0}) == 0);
    held.loaded = {{0.1, 0.05}};
    CHECK(distance_to(held, {0.1, 0.04}) == Approx(0.01));
}

TEST_CASE("the smaller factor of a way is kept, of equal ones the place farther left") {
    std::map<Way, Weakness> known;
    const auto keep = [&](double factor, double y, FailureMode mode = FailureMode::yield) {
        Weakness one;
        one.factor = factor;
        one.mode = mode;
        one.at.y() = y;
        keep_least(known, one);
        return known.at({0, FailureMode::yield});
    };
    CHECK(keep(2, -0.1).at.y() == -0.1);
    CHECK(keep(2 * (1 + 1e-11), 0.1).at.y() == 0.1);
    CHECK(keep(2 * (1 - 1e-11), -0.1).at.y() == 0.1);
    CHECK(keep(2.1, 0.3).at.y() == 0.1);
    CHECK(keep(1.9, -0.2).at.y() == -0.2);
    keep(1, 0.5, FailureMode::wrinkling); // another way
    CHECK(known.size() == 2);
}

TEST_CASE(
    "places as weak as 1.3 times their way's weakest are kept, those away by the weakest away, and "
    "go when it becomes weaker") {
    Weakest known;
    const auto keep = [&](double factor, double aside) {
        Weakness one;
        one.factor = factor;
        one.aside = aside;
        one.diameter = 5e-3;
        keep_least(known.anywhere, one);
        if (aside > one.diameter) {
            keep_least(known.away, one);
        }
        keep_near(known, one);
        return known.others[{0, one.mode}].size();
    };
    CHECK(keep(1, 0) == 1);
    CHECK(keep(4, 1) == 2); // the first away
    CHECK(keep(1.31, 0) == 2);
    CHECK(keep(1.29, 0) == 3);
    CHECK(keep(5.1, 1) == 4);
    CHECK(keep(5.3, 1) == 4);
    for (int k = 0; k < 100; ++k) {
        keep(0.5 + 1e-3 * k, 0);
    }
    for (const Weakness& one : known.others[{0, FailureMode::fibre_tension}]) {
        CHECK((one.factor <= 0.65 || one.aside == 1));
    }
}

TEST_CASE("what breaks a board: fibres, wood in tension, core, bond, face, a metal that yields") {
    using enum FailureMode;
    using enum MaterialFamily;
    for (const FailureMode mode :
         {fibre_tension, fibre_compression, grain_tension, core_shear, delamination, wrinkling}) {
        CHECK(breaks(mode, fibre));
    }
    for (const FailureMode mode : {grain_compression, crack_across, crush_across, in_plane_shear}) {
        CHECK_FALSE(breaks(mode, wood));
    }
    CHECK(breaks(yield, metal));
    CHECK_FALSE(breaks(yield, plastic));
}

TEST_CASE("held are quads whose motion across is prescribed everywhere, and lines held or pushed") {
    const PlateModel model = tests::grid_model(2); // lines at -0.5, -0.3, -0.1, 0.25, 0.5
    Loading loading = free_loading(model);
    const std::vector<int> strip = strip_nodes(model, -0.3, -0.1);
    for (const Component c : {comp_w, comp_bx, comp_by}) {
        prescribe(loading, strip, c);
    }
    prescribe(loading, line_nodes(model, 0.25), comp_w);
    add_line_force(loading, model, 0.5, 10);
    const HeldParts held = held_parts(model, loading);
    CHECK(held.quads == std::vector<char>{0, 1, 0, 0, 0, 1, 0, 0});
    CHECK(held.lines == std::vector<double>{-0.3, -0.1, 0.25, 0.5});
    // one node free to turn, one free to move
    loading.fixed[static_cast<std::size_t>(unknown(strip[4], comp_by))] = 0;
    loading.fixed[static_cast<std::size_t>(unknown(line_nodes(model, 0.25)[2], comp_w))] = 0;
    const HeldParts less = held_parts(model, loading);
    CHECK(less.lines == std::vector<double>{-0.3, -0.1, 0.5});
    CHECK(std::count(less.quads.begin(), less.quads.end(), 1) < 2);
}
