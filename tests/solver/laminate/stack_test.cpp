#include "solver/laminate/stack.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a stack is listed upwards with names, materials, angles and heights that join") {
    Board board;
    board.planform = rectangle_planform(1, 0.2);
    for (const char* name : {"base", "steel", "abs", "ash", "spacer"}) {
        Material& one = board.materials[name];
        one.isotropic = true;
        one.E1 = one.E2 = 1e9;
        one.G12 = one.G13 = one.G23 = 0.5e9;
        one.density = 1000;
    }
    board.core = Core{{Interpolation::linear, {-0.5, 0.5}, {4e-3, 8e-3}},
                      {{"ash", 0.2, {}, ""}},
                      {},
                      std::nullopt,
                      true};
    for (const char* name : {"base", "core", "top"}) {
        Layer& layer = board.layers.emplace_back();
        layer.name = name;
        layer.material = "base";
        layer.thickness = 1e-3;
    }
    board.layers[1].kind = LayerKind::core;
    board.layers[2].angle = 0.5;
    board.edge = Edge{"steel", 2e-3, std::nullopt, Flange{6e-3, 0.5e-3, 0.5}};
    board.sidewall = Sidewall{"abs", 0.01, std::nullopt};
    board.tip_spacer = TipSpacer{"spacer", {-0.4, 0.4}};
    const auto check = [&](double x, double y, const std::vector<StackItem>& wanted) {
        const auto found = stack_at(board, {x, y});
        CAPTURE(x, y);
        REQUIRE(found.size() == wanted.size());
        double z = 0;
        for (std::size_t k = 0; k < found.size(); ++k) {
            CHECK(found[k].name == wanted[k].name);
            CHECK(found[k].material == wanted[k].material);
            CHECK(found[k].angle == wanted[k].angle);
            CHECK(found[k].z_bottom == Approx(z).margin(1e-15));
            CHECK(found[k].z_top == Approx(wanted[k].z_top));
            z = found[k].z_top;
        }
    };
    const StackItem base{"base", "base", 0, 0, 1e-3};
    check(0, 0, {base, {"core", "ash", 0, 0, 7e-3}, {"top", "base", 0.5, 0, 8e-3}});
    check(0, 0.0985,
          {{"edge", "steel", 0, 0, 1.5e-3},
           {"sidewall", "abs", 0, 0, 7.5e-3},
           {"top", "base", 0.5, 0, 8.5e-3}});
    check(0, 0.0925,
          {base,
           {"flange", "steel", 0, 0, 1.5e-3},
           {"sidewall", "abs", 0, 0, 7.5e-3},
           {"top", "base", 0.5, 0, 8.5e-3}});
    check(0.45, 0, {base, {"tip spacer", "spacer", 0, 0, 8.8e-3}, {"top", "base", 0.5, 0, 9.8e-3}});
}
