#include "random_board.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chance.hpp"

namespace vrid::tests {

namespace {

// Everything that makes mesh lines.
class Geometry {
  public:
    explicit Geometry(unsigned seed) : chance_(seed) {}

    void draw(Board& board) {
        board.planform = planform();
        half_ = board.planform.running_length / 2;
        core(board);
        bands(board);
        const double width = chance_.between(0.8, 1) * half_;
        if (chance_.with(0.7)) {
            board.stance = Stance{width, 0.0125, 0.1, 0.11};
        }
        for (int k = chance_.count(0, 3); k > 0; --k) {
            board.layers.push_back(patch());
        }
    }

  private:
    Range along() {
        const double tail = -half_ * chance_.between(0.3, 1.2);
        return {tail, half_ * chance_.between(0.3, 1.2)};
    }

    Planform planform() {
        const double kind = chance_.between(0, 1);
        if (kind < 0.75) {
            PlanformShape shape;
            shape.running_length = chance_.between(0.8, 1.3);
            shape.waist_width = chance_.between(0.22, 0.28);
            shape.nose_width = shape.waist_width + chance_.between(0, 0.06);
            shape.tail_width = shape.waist_width + chance_.between(0, 0.06);
            shape.waist_x = chance_.between(-0.05, 0.05);
            shape.nose_length = chance_.between(0.08, 0.35);
            shape.tail_length = chance_.between(0.06, 0.3);
            shape.nose_fullness = chance_.between(0.2, 0.9);
            shape.tail_fullness = chance_.between(0.2, 0.9);
            return parametric_planform(shape);
        }
        const double length = chance_.between(0.2, 1.2);
        const double width = chance_.between(0.05, 0.3);
        if (kind < 0.85) {
            return rectangle_planform(length, width);
        }
        const double shift = chance_.between(-0.06, 0.06);
        const double running = chance_.between(0.3, 0.9);
        return polygon_planform(
            {{-0.5, -0.12}, {0.5, -0.12}, {0.5 + shift, 0.12}, {-0.5 + shift, 0.12}}, running);
    }

    // Thin at the tips, thick between the feet, a few percent of whim.
    void core(Board& board) {
        Core core;
        const double tip = chance_.between(1.6e-3, 2.6e-3);
        const double middle = chance_.between(4.5e-3, 9e-3);
        const int stations = chance_.count(2, 13);
        double x = -1.35 * half_;
        for (int k = 0; k < stations; ++k) {
            const double out = std::clamp(std::abs(x) / half_, 0.45, 1.0);
            const double share = std::pow(std::sin((1 - out) / 0.55 * std::numbers::pi / 2), 2);
            core.thickness.x.push_back(x);
            core.thickness.value.push_back((tip + (middle - tip) * share) *
                                           chance_.between(0.96, 1.04));
            x += chance_.between(0.3, 1) * 4 * half_ / stations;
        }
        if (chance_.with(0.3)) {
            core.thickness.interpolation = Interpolation::linear;
        }
        core.resolve = chance_.with(0.05);
        board.core = core;
    }

    void bands(Board& board) {
        Edge edge{"steel", chance_.between(1.5e-3, 3e-3), std::nullopt, std::nullopt};
        const Range reach = along();
        if (chance_.with(0.5)) {
            edge.x = reach;
        }
        if (chance_.with(0.6)) {
            edge.flange = Flange{0.0065, 0.0005, 0.5};
        }
        if (chance_.with(0.7)) {
            board.edge = edge;
        }
        const double wall = chance_.between(4e-3, 15e-3);
        if (chance_.with(0.7)) {
            board.sidewall = Sidewall{"abs", wall, std::nullopt};
        }
    }

    Layer patch() {
        Layer layer;
        layer.name = "patch " + std::to_string(++patches_); // a layer's name is its own
        layer.mirror = chance_.with(0.7);
        const double kind = chance_.between(0, 1);
        if (kind < 0.2) {
            layer.zone.x = along();
        } else if (kind < 0.4) {
            const double y = chance_.between(-0.09, 0.09);
            layer.zone.y = Range{y, y + chance_.between(0.01, 0.06)};
            layer.zone.x = along();
        } else if (kind < 0.5) {
            const double inner = chance_.between(0, 0.02);
            layer.zone.outline = Range{inner, inner + chance_.between(0.005, 0.05)};
        } else {
            const double angle = chance_.between(-std::numbers::pi, std::numbers::pi);
            const double length = chance_.between(0.1, 0.6);
            const double x = chance_.between(-1.1, 1.1) * half_;
            const Eigen::Vector2d from(x, chance_.between(-0.12, 0.12));
            layer.zone.ribbon =
                Ribbon{from, from + length * Eigen::Vector2d(std::cos(angle), std::sin(angle)),
                       chance_.between(0.015, 0.06)};
        }
        return layer;
    }

    Chance chance_;
    double half_ = 0;
    int patches_ = 0;
};

Layer sheet(const std::string& name, const std::string& material, double thickness) {
    Layer layer;
    layer.name = name;
    layer.material = material;
    layer.thickness = thickness;
    return layer;
}

// What the layers are made of, around the core.
class Layup {
  public:
    explicit Layup(unsigned seed) : chance_(seed) {}

    void draw(Board& board) {
        std::vector<Layer> patches;
        patches.swap(board.layers);
        board.layers.push_back(sheet("base", "uhmwpe", chance_.between(1e-3, 1.8e-3)));
        add_fabrics(board, "lower");
        const bool cored = chance_.with(0.93);
        for (Layer& patch : patches) {
            made_of(patch);
        }
        const auto below =
            static_cast<std::size_t>(chance_.count(0, static_cast<int>(patches.size())));
        board.layers.insert(board.layers.end(), patches.begin(),
                            patches.begin() + static_cast<std::ptrdiff_t>(below));
        if (cored) {
            Layer core;
            core.name = "core";
            core.kind = LayerKind::core;
            board.layers.push_back(core);
            strips(board);
        } else {
            board.core.reset();
            board.sidewall.reset();
            add_fabrics(board, "middle");
        }
        board.layers.insert(board.layers.end(),
                            patches.begin() + static_cast<std::ptrdiff_t>(below), patches.end());
        add_fabrics(board, "upper");
        board.layers.push_back(sheet("top sheet", "polyamide", chance_.between(0.3e-3, 0.8e-3)));
        board.mass_only = {chance_.between(0, 0.4), chance_.count(0, 12), 8.5e-3};
    }

  private:
    void add_fabrics(Board& board, const std::string& name) {
        for (int k = chance_.count(1, 2); k > 0; --k) {
            Layer layer;
            layer.name = name + " " + std::to_string(k);
            layer.kind = LayerKind::fabric;
            layer.fabric =
                chance_.one_of<std::string>({"triax-680", "triax-680", "biax-680", "glass-ud-300",
                                             "carbon-biax-300", "basalt-biax-600"});
            layer.angle = chance_.with(0.3) ? chance_.between(-1.6, 1.6) : 0;
            layer.flip = chance_.with(0.5);
            board.layers.push_back(layer);
        }
    }

    void made_of(Layer& patch) {
        if (chance_.with(0.15)) {
            patch.material = "aluminium";
            patch.thickness = chance_.between(0.2e-3, 0.5e-3);
            return;
        }
        patch.kind = LayerKind::fabric;
        patch.fabric = chance_.one_of<std::string>(
            {"carbon-ud-150", "carbon-ud-300", "glass-ud-300", "flax-ud-300"});
        patch.angle = chance_.with(0.2) ? chance_.between(-1.6, 1.6) : 0;
    }

    void strips(Board& board) {
        for (int k = chance_.count(1, 3); k > 0; --k) {
            const std::string material =
                chance_.one_of<std::string>({"poplar", "ash", "beech", "paulownia", "aspen"});
            const double width = chance_.between(0.01, 0.03);
            // every border of a resolved strip is a mesh line: a few broad ones
            board.core->strips.push_back(
                {material, board.core->resolve ? 4 * width : width, std::nullopt, ""});
        }
        const double spacer = chance_.between(0.8, 1) * board.planform.running_length / 2;
        if (chance_.with(0.2)) {
            board.tip_spacer = TipSpacer{"abs", {-spacer, spacer}};
        }
    }

    Chance chance_;
};

} // namespace

Board random_board(unsigned seed, const MaterialLibrary& library) {
    Board board;
    board.name = board.file = "random board " + std::to_string(seed);
    board.materials = library.materials;
    board.fabrics = library.fabrics;
    constexpr unsigned apart = 100003; // the layup's stream is another one
    Geometry(seed).draw(board);
    Layup(seed + apart).draw(board);
    return board;
}

} // namespace vrid::tests
