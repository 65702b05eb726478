// The text by which a batch knows whether a board's results are still good: whatever moves a number
// must change it, whatever does not must not.
#include "io/batch/job.hpp"

#include <set>

#include <catch2/catch.hpp>

#include "io/write/design_path.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

Board cured_demo() {
    Board board = demo();
    Cure cure;
    cure.stress_free = 80;
    cure.moisture = 0.01;
    cure.mould = Profile{Interpolation::smooth, {-0.7, 0, 0.7}, {0.04, 0.005, 0.04}};
    board.cure = cure;
    return board;
}

} // namespace

TEST_CASE("every design value of a cured board, its strengths too, is in the text") {
    const std::string text = resolved_text(cured_demo());
    Board board = cured_demo();
    std::size_t tried = 0;
    for (const DesignPlace& place : design_places(board)) {
        const auto before = value_now(place);
        if (!before || place.id.kind->moves_lines) { // moves lines: see below
            continue;
        }
        CAPTURE(path_of(place.id));
        Board other = cured_demo();
        for (const DesignPlace& there : design_places(other)) {
            if (there.id == place.id) {
                set_value(there, *before == 0 ? 0.25 : 1.25 * *before);
            }
        }
        CHECK(resolved_text(other) != text);
        ++tried;
    }
    CHECK(tried > 100);
}

TEST_CASE("what is no design value but moves a number is in the text, each alone") {
    const std::vector<std::pair<const char*, void (*)(Board&)>> changes{
        {"name", [](Board& board) { board.name = "other"; }},
        {"running length", [](Board& board) { board.planform.running_length += 1e-6; }},
        {"outline", [](Board& board) { board.planform.outline[0].control[1].x() += 1e-6; }},
        {"contact",
         [](Board& board) {
             board.planform.edge_contact[1] = {-0.5, 0.5};
         }},
        {"core station", [](Board& board) { board.core->thickness.x[2] += 1e-6; }},
        {"interpolation",
         [](Board& board) { board.core->thickness.interpolation = Interpolation::linear; }},
        {"strip", [](Board& board) { board.core->strips[1].width += 1e-6; }},
        {"strip's wood", [](Board& board) { board.core->strips[1].material = "poplar"; }},
        {"fill", [](Board& board) { board.core->strips[1].fill = "ash"; }},
        {"right half", [](Board& board) { board.core->strips_right = board.core->strips; }},
        {"resolve", [](Board& board) { board.core->resolve = true; }},
        {"cross",
         [](Board& board) {
             board.core->cross = Profile{Interpolation::linear, {-0.1, 0.1}, {0, 1e-6}};
         }},
        {"spacer", [](Board& board) { board.tip_spacer->material = "poplar"; }},
        {"spacer's end", [](Board& board) { board.tip_spacer->x[0] += 1e-6; }},
        {"layer's material", [](Board& board) { board.layers[0].material = "polyamide"; }},
        {"order", [](Board& board) { std::swap(board.layers[0], board.layers[1]); }},
        {"flip", [](Board& board) { board.layers[1].flip = !board.layers[1].flip; }},
        {"mirror", [](Board& board) { board.layers[1].mirror = true; }},
        {"inlay", [](Board& board) { board.layers[1].inlay = true; }},
        {"zone",
         [](Board& board) {
             board.layers[0].zone.y = {-0.1, 0.1};
         }},
        {"second zone", [](Board& board) { board.layers[4].more_zones = {Zone{}}; }},
        {"fabric's ply",
         [](Board& board) { board.fabrics.at("triax-740").plies[0].angle += 1e-6; }},
        {"ply thickness",
         [](Board& board) { board.fabrics.at("triax-740").plies[2].ply_thickness += 1e-9; }},
        {"resin", [](Board& board) { board.fabrics.at("triax-740").resin = "other"; }},
        {"strengths", [](Board& board) { board.fabrics.at("triax-740").strengths_of = "own"; }},
        {"E3", [](Board& board) { board.materials.at("ash").E3 = 0.5e9; }},
        {"edge", [](Board& board) { board.edge->material = "abs"; }},
        {"edge's width", [](Board& board) { board.edge->width += 1e-6; }},
        {"flange", [](Board& board) { board.edge->flange->fill = 0.51; }},
        {"flange's height", [](Board& board) { board.edge->flange->thickness += 1e-6; }},
        {"flange's width", [](Board& board) { board.edge->flange->width += 1e-6; }},
        {"sidewall", [](Board& board) { board.sidewall->material = "poplar"; }},
        {"sidewall's end",
         [](Board& board) {
             board.sidewall->x = {-0.6, 0.601};
         }},
        {"stance", [](Board& board) { board.stance->setback += 1e-6; }},
        {"foot", [](Board& board) { board.stance->foot_width += 1e-6; }},
        {"inserts", [](Board& board) { ++board.mass_only.inserts_per_foot; }},
        {"insert", [](Board& board) { board.mass_only.insert_mass += 1e-6; }},
        {"rest shape", [](Board& board) { board.rest_shape->value[2] += 1e-6; }},
        {"limit", [](Board& board) { board.limits["mass"].max = 3.3; }},
        {"no cure", [](Board& board) { board.cure.reset(); }},
        {"room", [](Board& board) { board.cure->room = 21; }},
        {"cold", [](Board& board) { board.cure->cold = -21; }},
        {"mould", [](Board& board) { board.cure->mould->value[1] += 1e-6; }},
        {"mould's station", [](Board& board) { board.cure->mould->x[1] += 1e-6; }},
        {"no mould", [](Board& board) { board.cure->mould.reset(); }},
        {"shrink 1", [](Board& board) { board.materials.at("epoxy").shrink1 = 0.002; }},
        {"shrink 2", [](Board& board) { board.materials.at("epoxy").shrink2 = 0.002; }},
        {"swell 1", [](Board& board) { board.materials.at("ash").swell1 += 1e-6; }},
        {"swell 2", [](Board& board) { board.materials.at("ash").swell2 += 1e-6; }},
        {"plastic", [](Board& board) { board.materials.at("uhmwpe").stress_free = 61; }},
        {"creep", [](Board& board) { board.materials.at("uhmwpe").slow *= 0.99; }}};
    std::set<std::string> texts{resolved_text(cured_demo())};
    for (const auto& [what, change] : changes) {
        Board board = cured_demo();
        change(board);
        CAPTURE(what);
        CHECK(texts.insert(resolved_text(board)).second);
    }
}

TEST_CASE("what moves no number is not in the text: folders, notes, sources, scatter") {
    Board board = cured_demo();
    board.file = "elsewhere.toml";
    board.hash = "another";
    board.tolerance.clear();
    board.planform.shape.reset();
    board.fabrics.at("triax-740").note = "a note";
    board.fabrics.at("triax-740").roll_width = 1;
    board.materials.at("ash").note = "a note";
    board.materials.at("ash").source.clear();
    CHECK(resolved_text(board) == resolved_text(cured_demo()));
    board.cure.reset(); // without one, what only a cure asks for is none of its business
    Board other = board;
    other.materials.at("epoxy").shrink1 = 0.002;
    other.materials.at("uhmwpe").slow = 0.5;
    CHECK(resolved_text(other) == resolved_text(board));
}

TEST_CASE("a mesh is told by lines and options alone, not by what lies between the lines") {
    const MeshOptions options{{0, 0.1}, {}, 0.08, 3};
    const std::string text = mesh_text(demo(), options);
    Board board = demo();
    board.core->thickness.value[2] += 1e-3;
    board.layers[0].thickness *= 2;
    CHECK(mesh_text(board, options) == text);
    board.stance->width += 1e-6;
    CHECK(mesh_text(board, options) != text);
    CHECK(mesh_text(demo(), {{0, 0.2}, {}, 0.08, 3}) != text);
    CHECK(mesh_text(demo(), {{0, 0.1}, {}, 0.07, 3}) != text);
    CHECK(mesh_text(demo(), {{0, 0.1}, {}, 0.08, 4}) != text);
}
