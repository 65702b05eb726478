#include "solver/laminate/stacking.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/laminate/stack.hpp"
#include "solver/response/mass.hpp"
#include "tests/asserted.hpp"
#include "tests/io/demo_board.hpp"
#include "tests/random_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

using Names = std::vector<std::string>;

const Layup<double>& layup() {
    static const Layup<double> all = make_layup<double>(demo());
    return all;
}

Names names_at(double x, double y) {
    Names names;
    for (const StackItem& item : stack_at(layup(), {x, y})) {
        names.push_back(item.name);
    }
    return names;
}

} // namespace

TEST_CASE("edge, flange, sidewall and spacer stand where base and core would") {
    const double half = width_at(demo().planform, 0) / 2; // the outline is nearly straight there
    CHECK(names_at(0, 0) == Names{"base", "lower glass", "core", "upper glass", "top sheet"});
    CHECK(names_at(0, half - 1e-3) ==
          Names{"edge", "lower glass", "sidewall", "rubber", "upper glass", "top sheet"});
    CHECK(names_at(0, half - 5e-3) ==
          Names{"base", "flange", "lower glass", "sidewall", "rubber", "upper glass", "top sheet"});
    CHECK(names_at(0, half - 8.3e-3) ==
          Names{"base", "flange", "lower glass", "core", "rubber", "upper glass", "top sheet"});
    CHECK(names_at(0, half - 10e-3) ==
          Names{"base", "lower glass", "core", "rubber", "upper glass", "top sheet"});
    CHECK(names_at(0.7, 0) ==
          Names{"base", "lower glass", "tip spacer", "upper glass", "top sheet"});
}

TEST_CASE("the edge is as high as base and flange, and everything above follows") {
    const double half = width_at(demo().planform, 0) / 2;
    const auto edge = stack_at(layup(), {0, half - 1e-3});
    const auto flange = stack_at(layup(), {0, half - 5e-3});
    CHECK(edge[0].z_top == Approx(1.7e-3)); // 1.2 and 0.5 mm
    CHECK(flange[1].z_top == Approx(1.7e-3));
    CHECK(edge.back().z_top == Approx(flange.back().z_top));
}

TEST_CASE("laminate and list of layers agree on the height at every point") {
    int parts = 0;
    for (unsigned seed = 1; seed <= 20; ++seed) {
        const Board board = random_board(seed, shipped_library());
        const Layup<double> all = make_layup<double>(board);
        for (double x = -0.6; x < 0.6; x += 0.11) {
            for (double y = -0.12; y < 0.12; y += 0.013) {
                const StackKey key = stack_key(all, {x, y});
                double laminae = 0;
                for (const Lamina<double>& ply : stack_laminae(all, key, core_thickness(all, x))) {
                    laminae += ply.thickness;
                }
                const auto items = stack_at(all, {x, y});
                parts += static_cast<int>(items.size());
                CHECK((items.empty() ? 0 : items.back().z_top) == Approx(laminae).margin(1e-15));
            }
        }
    }
    CHECK(parts > 10000);
}

TEST_CASE("the mass by materials is the mass of the laminates") {
    for (unsigned seed = 1; seed <= few_with_asserts(20); ++seed) {
        Board board = random_board(seed, shipped_library());
        board.mass_only = {};
        const Layup<double> all = make_layup<double>(board);
        const SectionWeights weights = mass_weights(board);
        double mass = 0;
        for (const SectionPlace& place : weights.places) {
            const StackKey& key = weights.stacks[static_cast<std::size_t>(place.stack)];
            mass += place.area * section(stack_laminae(all, key, core_thickness(all, place.x))).I0;
        }
        INFO(seed);
        CHECK(board_mass(board).mass == Approx(mass).epsilon(1e-12));
    }
}
