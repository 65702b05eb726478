// Names of scaled fabrics, on a board of four layers of two fabrics.
#include "io/design/board_tables.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

Fabric cloth(const std::string& name, double weight) {
    Fabric fabric;
    fabric.name = name;
    fabric.note = "note of " + name;
    fabric.plies.resize(1);
    fabric.plies[0].areal_weight = weight;
    return fabric;
}

// Layers 0 to 3 of the fabrics a, a, a, b.
NamedBoard four_layers() {
    NamedBoard read;
    for (const char* fabric : {"a", "a", "a", "b"}) {
        Layer layer;
        layer.name = "l" + std::to_string(read.board.layers.size());
        layer.kind = LayerKind::fabric;
        layer.fabric = fabric;
        read.board.layers.push_back(layer);
    }
    read.board.fabrics = {{"a", cloth("a", 0.3)}, {"b", cloth("b", 0.5)}};
    read.named.fabrics = read.board.fabrics;
    return read;
}

// As apply_changes leaves it: a scaled layer has a fabric of its own.
void scale(Board& board, std::size_t layer, double factor) {
    const Fabric& of = board.fabrics.at(board.layers[layer].fabric);
    const std::string own = "#" + std::to_string(layer);
    board.fabrics[own] = cloth(own, factor * of.plies[0].areal_weight);
    board.layers[layer].fabric = own;
}

std::vector<std::string> names_after(const NamedBoard& was, Board changed, bool in_file) {
    name_scaled_fabrics(changed, {was, was.board, [&](const std::string&) { return in_file; }});
    std::vector<std::string> names;
    for (const Layer& layer : changed.layers) {
        names.push_back(layer.fabric);
        CHECK(changed.fabrics.at(layer.fabric).name == layer.fabric);
    }
    return names;
}

using Names = std::vector<std::string>;

} // namespace

TEST_CASE("a scaled layer beside others gets a fabric named after both; layers alike share one") {
    const NamedBoard was = four_layers();
    Board changed = was.board;
    scale(changed, 1, 1.1);
    CHECK(names_after(was, changed, true) == Names{"a", "a for l1", "a", "b"});
    scale(changed, 2, 1.1);
    CHECK(names_after(was, changed, true) == Names{"a", "a for l1", "a for l1", "b"});
    changed = was.board;
    scale(changed, 1, 1.1);
    scale(changed, 2, 1.2);
    CHECK(names_after(was, changed, true) == Names{"a", "a for l1", "a for l2", "b"});
}

TEST_CASE("where every layer of a fabric is scaled it changes in place, if the file has it") {
    NamedBoard was = four_layers();
    Board changed = was.board;
    scale(changed, 3, 1.1);
    CHECK(names_after(was, changed, true) == Names{"a", "a", "a", "b"});
    CHECK(names_after(was, changed, false) == Names{"a", "a", "a", "b for l3"});
    was.board.tolerance["fabric.b.fibre_volume_fraction"] = {};
    CHECK(names_after(was, changed, false) == Names{"a", "a", "a", "b"});
    for (std::size_t i = 0; i < 3; ++i) { // the first takes the place, the second is another
        scale(changed, i, i == 0 ? 1.1 : 1.2);
    }
    CHECK(names_after(was, changed, true) == Names{"a", "a for l1", "a for l1", "b"});
}

TEST_CASE("a name that is taken is counted up, one too long or beyond ASCII is a plain one") {
    NamedBoard was = four_layers();
    was.named.fabrics["a for l1"] = cloth("a for l1", 1);
    Board changed = was.board;
    changed.fabrics["a for l1 2"] = cloth("a for l1 2", 1);
    scale(changed, 1, 1.1);
    CHECK(names_after(was, changed, true).at(1) == "a for l1 3");
    changed.layers[1].name = std::string(55, 'x'); // with "a for " 61 letters
    CHECK(names_after(was, changed, true).at(1) == "scaled fabric");
    changed.layers[1].name = std::string(54, 'x');
    CHECK(names_after(was, changed, true).at(1) == "a for " + std::string(54, 'x'));
    changed.layers[1].name = "gl\xc3\xa4s";
    CHECK(names_after(was, changed, true).at(1) == "scaled fabric");
}

TEST_CASE("a scaled fabric keeps the note and has the scaled plies") {
    const NamedBoard was = four_layers();
    Board changed = was.board;
    scale(changed, 1, 1.1);
    name_scaled_fabrics(changed, {was, was.board, [](const std::string&) { return true; }});
    const Fabric& fabric = changed.fabrics.at("a for l1");
    CHECK(fabric.note == "note of a");
    CHECK(fabric.plies[0].areal_weight == Approx(0.33));
    CHECK(same_plies(fabric, cloth("x", 1.1 * 0.3)));
    CHECK_FALSE(same_plies(fabric, cloth("x", 0.3)));
    Fabric two = cloth("x", 1.1 * 0.3);
    two.plies.push_back(two.plies[0]);
    CHECK_FALSE(same_plies(fabric, two));
    two.plies.pop_back();
    two.plies[0].ply_thickness = 1e-4;
    CHECK_FALSE(same_plies(fabric, two));
}
