#include "solver/design/design_board.hpp"

#include <utility>

namespace vrid {

namespace {

// The layers of one fabric, and the copy that each has.
using FabricCopies = std::multimap<std::string, Fabric*>;

FabricCopies own_fabrics(Board& board) {
    FabricCopies copies;
    std::map<std::string, Fabric> all;
    for (Layer& layer : board.layers) {
        if (layer.kind == LayerKind::fabric) {
            const std::string name = layer.fabric + " of " + layer.name;
            const std::string shared = std::exchange(layer.fabric, name);
            const auto [place, fresh] = all.insert_or_assign(name, board.fabrics.at(shared));
            copies.emplace(shared, &place->second);
        }
    }
    board.fabrics = std::move(all); // nodes keep their places
    return copies;
}

void add_core(Board& board, std::vector<DesignValue>& values) {
    if (!board.core) {
        return;
    }
    std::vector<double>& thickness = board.core->thickness.value;
    DesignValue scale{"core.thickness_scale", "core.thickness_scale", 1, {}};
    for (double& value : thickness) {
        scale.followers.push_back({&value, value});
    }
    values.push_back(scale);
    for (std::size_t i = 0; i < thickness.size(); ++i) {
        values.push_back({"core.thickness_mm[" + std::to_string(i) + "]",
                          "core.thickness_mm",
                          thickness[i],
                          {{&thickness[i], 1}}});
    }
}

void add_layers(Board& board, std::vector<DesignValue>& values) {
    for (Layer& layer : board.layers) {
        const std::string path = "layer." + layer.name;
        if (layer.kind == LayerKind::core) {
            continue; // its strips run along the board
        }
        values.push_back(
            {path + ".angle_deg", "layer.angle_deg", layer.angle, {{&layer.angle, 1}}});
        if (layer.kind == LayerKind::material) {
            values.push_back({path + ".thickness_mm",
                              "layer.thickness_mm",
                              layer.thickness,
                              {{&layer.thickness, 1}}});
            continue;
        }
        DesignValue scale{path + ".areal_weight_scale", "layer.areal_weight_scale", 1, {}};
        for (FabricPly& ply : board.fabrics.at(layer.fabric).plies) {
            scale.followers.push_back({&ply.areal_weight, ply.areal_weight});
            scale.followers.push_back({&ply.ply_thickness, ply.ply_thickness});
        }
        values.push_back(scale);
    }
}

void add_fabrics(const FabricCopies& copies, std::vector<DesignValue>& values) {
    for (auto it = copies.begin(); it != copies.end(); it = copies.upper_bound(it->first)) {
        if (it->second->resin.empty()) {
            continue;
        }
        DesignValue fraction{"fabric." + it->first + ".fibre_volume_fraction",
                             "fabric.fibre_volume_fraction",
                             it->second->fibre_volume_fraction,
                             {}};
        const auto [first, last] = copies.equal_range(it->first);
        for (auto copy = first; copy != last; ++copy) {
            fraction.followers.push_back({&copy->second->fibre_volume_fraction, 1});
        }
        values.push_back(fraction);
    }
}

// An isotropic material has one modulus: the others follow from it.
void add_isotropic(const std::string& path, Material& material, std::vector<DesignValue>& values) {
    const double turned = 1 / (2 * (1 + material.nu12)); // G / E
    DesignValue E{path + "E_GPa", "material.E_GPa", material.E1, {}};
    E.followers = {{&material.E1, 1}, {&material.E2, 1}};
    DesignValue nu{path + "nu", "material.nu", material.nu12, {{&material.nu12, 1}}};
    for (double* G : {&material.G12, &material.G13, &material.G23}) {
        E.followers.push_back({G, turned});
        nu.followers.push_back({G, -2 * material.E1 * turned * turned});
    }
    values.push_back(E);
    values.push_back(nu);
}

void add_orthotropic(const std::string& path, Material& material,
                     std::vector<DesignValue>& values) {
    const std::pair<const char*, double*> constants[] = {
        {"E1_GPa", &material.E1},   {"E2_GPa", &material.E2},   {"nu12", &material.nu12},
        {"G12_GPa", &material.G12}, {"G13_GPa", &material.G13}, {"G23_GPa", &material.G23}};
    for (const auto& [key, place] : constants) {
        values.push_back({path + key, std::string("material.") + key, *place, {{place, 1}}});
    }
}

void add_materials(Board& board, std::vector<DesignValue>& values) {
    for (auto& [name, material] : board.materials) {
        const std::string path = "material." + name + ".";
        if (material.isotropic) {
            add_isotropic(path, material, values);
        } else {
            add_orthotropic(path, material, values);
        }
        values.push_back({path + "density_kgm3",
                          "material.density_kgm3",
                          material.density,
                          {{&material.density, 1}}});
    }
}

} // namespace

DesignBoard design_board(const Board& board) {
    DesignBoard design{std::make_unique<Board>(board), {}};
    const FabricCopies copies = own_fabrics(*design.board);
    add_core(*design.board, design.values);
    add_layers(*design.board, design.values);
    add_fabrics(copies, design.values);
    add_materials(*design.board, design.values);
    double& resin = design.board->mass_only.resin;
    design.values.push_back({"mass_only.resin_gsm", "mass_only.resin_gsm", resin, {{&resin, 1}}});
    return design;
}

} // namespace vrid
