#include <functional>
#include <limits>

#include <catch2/catch.hpp>

#include "mesh/board/check_board.hpp"
#include "mesh/board/material_keys.hpp"

using namespace vrid;

namespace {

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

Material isotropic(const std::string& name, double E) {
    Material material;
    material.name = name;
    material.isotropic = true;
    material.E1 = E;
    material.nu12 = 0.3;
    material.density = 1000;
    complete(material);
    return material;
}

Layer named_layer(const std::string& name, LayerKind kind) {
    Layer made;
    made.name = name;
    made.kind = kind;
    return made;
}

// Every part that a board can have, as a C++ program would make it.
Board whole_board() {
    Board board;
    board.name = "by hand";
    board.planform = parametric_planform({1.1, 0.25, 0.29, 0.29, 0, 0.2, 0.2, 0.6, 0.6});
    for (const char* name : {"base", "steel", "epoxy", "fibre", "wood"}) {
        board.materials[name] = isotropic(name, 1e10);
    }
    Material& wood = board.materials["wood"];
    wood.isotropic = false;
    wood.E2 = 1e9;
    board.fabrics["cloth"] = {"cloth", "epoxy", 0.5, {{0, "fibre", 0.3, "", 0}}, "", 0, ""};
    board.core = Core{{Interpolation::smooth, {-0.5, 0, 0.5}, {0.002, 0.006, 0.002}},
                      {{"wood", 0.02, Range{-0.4, 0.4}, "wood"}},
                      {},
                      Profile{Interpolation::linear, {-0.1, 0.1}, {0, 0}},
                      false};
    board.layers = {named_layer("base", LayerKind::material),
                    named_layer("cloth", LayerKind::fabric), named_layer("core", LayerKind::core),
                    named_layer("patch", LayerKind::fabric)};
    board.layers[0].material = "base";
    board.layers[0].thickness = 0.001;
    board.layers[1].fabric = board.layers[3].fabric = "cloth";
    board.layers[3].zone.x = Range{-0.3, 0.3};
    board.layers[3].zone.y = Range{0.02, 0.08};
    board.layers[3].mirror = true;
    board.tip_spacer = TipSpacer{"base", {-0.6, 0.6}};
    board.edge = Edge{"steel", 0.002, Range{-0.6, 0.6}, Flange{0.006, 0.0005, 0.5}};
    board.sidewall = Sidewall{"base", 0.008, std::nullopt};
    board.stance = Stance{0.55, 0.01, 0.1, 0.11};
    board.mass_only = {0.3, 12, 0.0085};
    board.rest_shape =
        Profile{Interpolation::smooth, {-0.75, -0.55, 0, 0.55, 0.75}, {0.05, 0, 0.005, 0, 0.05}};
    board.cure = Cure{85, 20, -20, 0, board.rest_shape};
    board.tolerance["core.thickness_mm"] = {0.05, false, ""};
    board.limits["mass"] = {2.0, 3.0};
    return board;
}

struct Broken {
    Fault what;
    PartOfBoard part;
    std::string_view field;
    std::function<void(Board&)> change;
};

void expect(const std::vector<Broken>& rows) {
    for (const Broken& row : rows) {
        Board board = whole_board();
        row.change(board);
        const std::vector<BoardFault> faults = check_board(board);
        CAPTURE(static_cast<int>(row.what), static_cast<int>(row.part), row.field, faults.size());
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].what == row.what);
        CHECK(faults[0].at.part == row.part);
        CHECK(faults[0].at.field == row.field);
    }
}

} // namespace

TEST_CASE("a board made by hand with every part has no fault") {
    CHECK(check_board(whole_board()).empty());
}

TEST_CASE("one number that cannot be is one fault at its place") {
    using enum Fault;
    using enum PartOfBoard;
    const auto set = [](auto member) { // a number of the board, by a function that finds it
        return [member](double value) {
            return [member, value](Board& board) { member(board) = value; };
        };
    };
    const auto waist = set([](Board& b) -> double& { return b.planform.running_length; });
    const auto station = set([](Board& b) -> double& { return b.core->thickness.value[1]; });
    const auto base = set([](Board& b) -> double& { return b.layers[0].thickness; });
    const auto fill = set([](Board& b) -> double& { return b.edge->flange->fill; });
    const auto weight =
        set([](Board& b) -> double& { return b.fabrics["cloth"].plies[0].areal_weight; });
    const auto shear = set([](Board& b) -> double& { return b.materials["wood"].G13; });
    const auto nu = set([](Board& b) -> double& { return b.materials["wood"].nu12; });
    expect({
        {not_finite, planform, "running_length", waist(no_number)},
        {not_positive, planform, "running_length", waist(-1.1)},
        {contact_off_board, planform, "running_length", waist(1.6)},
        {not_finite, core, "thickness", station(no_number)},
        {not_positive, core, "thickness", station(0)},
        {not_finite, layer, "thickness", base(std::numeric_limits<double>::infinity())},
        {not_positive, layer, "thickness", base(0)},
        {no_share, edge, "fill", fill(0)},
        {no_share, edge, "fill", fill(1.01)},
        {not_positive, fabric, "areal_weight", weight(0)},
        {not_positive, material, "G13_GPa", shear(-1)},
        {not_finite, material, "nu12", nu(no_number)},
        // |nu12| < sqrt(E1 / E2) = 3.16: else some deformation in the plane releases energy
        {large_contraction, material, "nu12", nu(-3.2)},
        {not_isotropic, material, "E_GPa", [](Board& b) { b.materials["base"].G13 = 0; }},
        {no_share, material, "slow", [](Board& b) { b.materials["base"].slow = 0; }},
        {not_positive, material, "Xt_MPa", [](Board& b) { b.materials["base"].strengths.Xt = 0; }},
        {negative, mass_only, "resin", [](Board& b) { b.mass_only.resin = -0.1; }},
        {not_finite, cure, "room", [](Board& b) { b.cure->room = no_number; }},
        {not_finite, layer, "angle", [](Board& b) { b.layers[1].angle = no_number; }},
        {limits_cross, limit, "max", [](Board& b) { b.limits["mass"].max = 1; }},
        {negative, tolerance, "", [](Board& b) { b.tolerance["core.thickness_mm"].value = -1; }},
    });
    CHECK([&] {
        Board board = whole_board();
        nu(3.1)(board);
        return check_board(board).empty();
    }());
}

TEST_CASE("names, lists and the order of stations are looked at") {
    using enum Fault;
    using enum PartOfBoard;
    expect({
        {unknown_name, layer, "material", [](Board& b) { b.layers[0].material = "bsae"; }},
        {unknown_name, layer, "fabric", [](Board& b) { b.layers[1].fabric = "clhot"; }},
        {unknown_name, fabric, "resin", [](Board& b) { b.fabrics["cloth"].resin = "glue"; }},
        {unknown_name, fabric, "fibre", [](Board& b) { b.fabrics["cloth"].plies[0].fibre = "x"; }},
        {lends_no_strength, fabric, "strengths_of",
         [](Board& b) { b.fabrics["cloth"].strengths_of = "epoxy"; }},
        {unknown_name, core, "material", [](Board& b) { b.core->strips[0].material = "oak"; }},
        {unknown_name, sidewall, "material", [](Board& b) { b.sidewall->material = "abs"; }},
        {empty, layer, "name", [](Board& b) { b.layers[1].name = ""; }},
        {name_twice, layer, "name", [](Board& b) { b.layers[1].name = "base"; }},
        {empty, core, "strips", [](Board& b) { b.core->strips.clear(); }},
        {empty, fabric, "plies", [](Board& b) { b.fabrics["cloth"].plies.clear(); }},
        {uneven, core, "thickness", [](Board& b) { b.core->thickness.x.pop_back(); }},
        {not_rising, core, "thickness", [](Board& b) { b.core->thickness.x[1] = -0.5; }},
        {curved_cross, core, "cross",
         [](Board& b) { b.core->cross->interpolation = Interpolation::smooth; }},
        {not_rising, core, "cross", [](Board& b) { b.core->cross->x[1] = -0.2; }},
        {not_rising, rest_shape, "z", [](Board& b) { b.rest_shape->x[2] = -0.6; }},
        {not_rising, cure, "mould", [](Board& b) { b.cure->mould->x[2] = -0.6; }},
        {no_order, tip_spacer, "x",
         [](Board& b) {
             b.tip_spacer->x = {0.6, -0.6};
         }},
        {no_order, layer, "y",
         [](Board& b) {
             b.layers[3].zone.y = Range{0.08, 0.08};
         }},
        {off_board, edge, "x",
         [](Board& b) {
             b.edge->x = Range{0.8, 0.9};
         }},
        {fill_everywhere, core, "fill", [](Board& b) { b.core->strips[0].x.reset(); }},
    });
}

TEST_CASE("a core stands exactly with a layer of the core") {
    Board board = whole_board();
    board.core.reset();
    REQUIRE(check_board(board).size() == 1);
    CHECK(check_board(board)[0].what == Fault::no_core);
    board = whole_board();
    board.layers.erase(board.layers.begin() + 2);
    std::vector<Fault> found;
    for (const BoardFault& fault : check_board(board)) {
        found.push_back(fault.what);
    }
    CHECK(found ==
          std::vector<Fault>{Fault::idle_core, Fault::no_core_layer, Fault::no_core_layer});
    board = whole_board();
    board.layers[1].kind = LayerKind::core;
    REQUIRE(check_board(board).size() == 1);
    CHECK(check_board(board)[0].what == Fault::second_core_layer);
    CHECK(check_board(board)[0].at.number == 2);
}

TEST_CASE("zones, hardware, feet and the running surface fit the board") {
    using enum Fault;
    using enum PartOfBoard;
    const auto zone = [](auto change) { return [change](Board& b) { change(b.layers[3].zone); }; };
    expect({
        {misses_board, layer, "", zone([](Zone& z) {
             z.x = Range{0.8, 0.9};
         })},
        {mirror_overlap, layer, "mirror", zone([](Zone& z) {
             z.y = Range{-0.02, 0.08};
         })},
        {mirror_whole, layer, "mirror", zone([](Zone& z) { z.y.reset(); })},
        {mirror_everywhere, layer, "mirror", zone([](Zone& z) { z = {}; })},
        {few_corners, layer, "polygon", zone([](Zone& z) {
             z.polygon = {{0, 0}, {0.1, 0.1}};
         })},
        {crossing_sides, layer, "polygon", zone([](Zone& z) {
             z.polygon = {{0, 0}, {0.04, 0.04}, {0.04, 0}, {0, 0.04}};
         })},
        {short_ribbon, layer, "to", zone([](Zone& z) {
             z = {{}, {}, Ribbon{{0, 0.05}, {0, 0.05}, 0.01}, {}, {}};
         })},
        {not_positive, layer, "width", zone([](Zone& z) {
             z = {{}, {}, Ribbon{{0, 0.05}, {0.1, 0.05}, 0}, {}, {}};
         })},
        {mirror_core, layer, "mirror",
         [](Board& b) {
             b.layers[2].mirror = true;
             b.layers[2].zone = b.layers[3].zone;
         }},
        {inlay_core, layer, "inlay", [](Board& b) { b.layers[2].inlay = true; }},
        {wide_band, edge, "width", [](Board& b) { b.edge->flange->width = 0.124; }},
        {wide_band, sidewall, "width", [](Board& b) { b.sidewall->width = 0.126; }},
        {feet_overlap, stance, "width", [](Board& b) { b.stance->foot_length = 0.55; }},
        {front_foot_off, stance, "width", [](Board& b) { b.stance->setback = -0.5; }},
        {rear_foot_off, stance, "width", [](Board& b) { b.stance->setback = 0.5; }},
        {wide_foot, stance, "foot_width", [](Board& b) { b.stance->foot_width = 0.3; }},
        {inserts_without_mass, mass_only, "inserts_per_foot",
         [](Board& b) { b.mass_only.insert_mass = 0; }},
        {inserts_without_stance, mass_only, "inserts_per_foot", [](Board& b) { b.stance.reset(); }},
        {steep_surface, rest_shape, "z", [](Board& b) { b.rest_shape->value[4] = 0.3; }},
        {folded_surface, rest_shape, "z",
         [](Board& b) {
             b.rest_shape = Profile{Interpolation::linear, {-0.75, 0, 0.4}, {0, 0.1, 0}};
         }},
        {empty, planform, "", [](Board& b) { b.planform.outline.clear(); }},
        {open_outline, planform, "", [](Board& b) { b.planform.outline.pop_back(); }},
    });
}
