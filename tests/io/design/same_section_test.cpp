// Two boards' sections: every value that an edit may change counts, names of fabrics do not.
#include "io/design/board_tables.hpp"

#include <catch2/catch.hpp>

#include "io/write/design_path.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

Board cured() {
    Board board = demo();
    board.cure.emplace().stress_free = 80;
    board.cure->moisture = 0.01;
    return board;
}

// Where the section differs of which one design value is another.
std::string where_other(const DesignPlace& place, double factor) {
    Board other = cured();
    for (const DesignPlace& there : design_places(other)) {
        if (there.id == place.id) {
            const double value = *value_now(there);
            set_value(there, value == 0 ? factor - 1 : factor * value);
        }
    }
    return section_difference(other, cured());
}

} // namespace

TEST_CASE("a board's section is its own, also with digits beyond the twelfth") {
    CHECK(section_difference(cured(), cured()).empty());
    Board board = cured();
    for (const DesignPlace& place : design_places(board)) {
        if (value_now(place).value_or(0) != 0) { // of nothing there is no twelfth digit
            CAPTURE(path_of(place.id));
            CHECK(where_other(place, 1 + 1e-13).empty());
        }
    }
}

TEST_CASE("every design value of a board that is another in the tenth digit is named") {
    Board board = cured();
    std::size_t tried = 0;
    for (const DesignPlace& place : design_places(board)) {
        if (!value_now(place) || place.id.kind->form == DesignForm::scale) {
            continue;
        }
        const std::string path = path_of(place.id);
        const std::string where = where_other(place, 1 + 1e-9);
        CAPTURE(path, where);
        CHECK_FALSE(where.empty());
        if (!path.starts_with("material.") && !path.starts_with("fabric.")) {
            CHECK(where == path);
        }
        ++tried;
    }
    CHECK(tried > 100);
}

TEST_CASE("what fabrics are called does not count, what they are made of does") {
    Board board = cured();
    const auto rename = [&](const std::string& from, const std::string& to) {
        board.fabrics[to] = board.fabrics.at(from);
        for (Layer& layer : board.layers) {
            layer.fabric = layer.fabric == from ? to : layer.fabric;
        }
    };
    rename("triax-740", "ours");
    board.fabrics.erase("triax-740");
    board.materials["unused"] = Material{};
    CHECK(section_difference(board, cured()).empty());
    Board other = board;
    other.fabrics.at("ours").plies.pop_back();
    CHECK(section_difference(other, board) == "fabric.ours.plies");
    other = board;
    other.fabrics.at("ours").plies[1].ply_thickness += 1e-6;
    CHECK(section_difference(other, board) == "fabric.ours.plies[1]");
    other = board;
    other.fabrics.at("ours").resin = "unused";
    CHECK(section_difference(other, board) == "fabric.ours.resin");
}

TEST_CASE("other materials, layers, stations, strips or no cure are differences") {
    const auto difference = [](void (*change)(Board&)) {
        Board board = cured();
        change(board);
        return section_difference(board, cured());
    };
    CHECK(difference([](Board& b) { b.layers.pop_back(); }) == "the number of layers or stations");
    CHECK(difference([](Board& b) {
              b.core->thickness.x.pop_back();
              b.core->thickness.value.pop_back();
          }) == "the number of layers or stations");
    CHECK(difference([](Board& b) { b.layers[0].material = "polyamide"; }) == "layer.base");
    CHECK(difference([](Board& b) { b.core->strips[1].material = "poplar"; }) == "core.strips");
    CHECK(difference([](Board& b) { b.edge->material = "abs"; }) == "material");
    CHECK(difference([](Board& b) { b.sidewall->material = "poplar"; }) == "material");
    CHECK(difference([](Board& b) { b.tip_spacer->material = "poplar"; }) == "material");
    CHECK(difference([](Board& b) { b.materials.at("ash").strengths.Xt.emplace(1e6); }) ==
          "material.ash.Xt_MPa");
    CHECK(difference([](Board& b) { b.cure.reset(); }) == "cure");
    Board halves = cured();
    halves.core->strips_right = halves.core->strips;
    Board other = halves;
    other.core->strips_right[1].material = "poplar";
    CHECK(section_difference(other, halves) == "core.strips");
    other = cured();
    other.fabrics.at("carbon-ud-300").strengths_of = "own";
    CHECK(section_difference(other, cured()) == "fabric.carbon-ud-300.strengths_of");
}
