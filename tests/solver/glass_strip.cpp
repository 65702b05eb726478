#include "tests/solver/glass_strip.hpp"

#include "io/materials/material_library.hpp"

namespace vrid::tests {

Board glass_strip(double angle) {
    const MaterialLibrary library = load_material_library();
    Board board;
    board.planform = rectangle_planform(1.2, 0.24);
    board.planform.running_length = 1.0;
    for (const char* name : {"e-glass-epoxy-ud-45", "poplar"}) {
        board.materials[name] = library.materials.at(name);
    }
    const auto layer = [](const std::string& name, double thickness, double turn) {
        Layer one;
        one.name = name;
        one.material = "e-glass-epoxy-ud-45";
        one.thickness = thickness;
        one.angle = turn;
        return one;
    };
    Layer core;
    core.name = "core";
    core.kind = LayerKind::core;
    board.layers = {layer("lower", 0.8e-3, 0), core, layer("upper", 0.8e-3, angle)};
    board.core = Core{};
    board.core->thickness.x = {0};
    board.core->thickness.value = {6e-3};
    Strip strip;
    strip.material = "poplar";
    strip.width = 0.1;
    board.core->strips = {strip};
    board.stance = Stance{0.5, 0.013, 0.1, 0.2};
    return board;
}

} // namespace vrid::tests
