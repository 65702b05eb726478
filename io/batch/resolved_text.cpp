#include "io/batch/job.hpp"

#include "io/write/json_parts.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/mesh_lines.hpp"

namespace vrid {

namespace {

template <class T> Json json_of(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json layers_of(const Board& board) {
    Json all = Json::array();
    for (const Layer& layer : board.layers) {
        all.push_back({layer.name, static_cast<int>(layer.kind), layer.material, layer.thickness,
                       layer.fabric, layer.angle, layer.flip, layer.inlay});
    }
    return all;
}

Json materials_of(const Board& board) {
    Json all;
    for (const auto& [name, m] : board.materials) {
        const Strengths& s = m.strengths;
        all[name] = {m.isotropic, m.E1,  m.E2,      m.nu12,   m.G12,
                     m.G13,       m.G23, m.density, m.alpha1, m.alpha2};
        all[name].push_back({json_of(s.Xt), json_of(s.Xc), json_of(s.Yt), json_of(s.Yc),
                             json_of(s.S12), json_of(s.S13), json_of(s.S23), json_of(m.E3)});
    }
    return all;
}

Json fabrics_of(const Board& board) {
    Json all;
    for (const auto& [name, fabric] : board.fabrics) {
        const Json plies = each_of(fabric.plies, [](const FabricPly& ply) {
            return Json{ply.angle, ply.fibre, ply.areal_weight, ply.ply_material,
                        ply.ply_thickness};
        });
        all[name] = {fabric.resin, fabric.fibre_volume_fraction, fabric.strengths_of, plies};
    }
    return all;
}

Json hardware_of(const Board& board) {
    Json all;
    if (board.core) {
        all["core"] = board.core->thickness.value;
        for (const auto* strips : {&board.core->strips, &board.core->strips_right}) {
            Json half = Json::array();
            for (const Strip& strip : *strips) {
                half.push_back({strip.material, strip.fill});
            }
            all["strips"].push_back(half);
        }
        if (board.core->cross) {
            all["cross"] = board.core->cross->value;
        }
    }
    all["tip_spacer"] = board.tip_spacer ? board.tip_spacer->material : "";
    all["edge"] = board.edge ? board.edge->material : "";
    if (board.edge && board.edge->flange) {
        all["flange"] = {board.edge->flange->thickness, board.edge->flange->fill};
    }
    all["sidewall"] = board.sidewall ? board.sidewall->material : "";
    const MassOnly& mass = board.mass_only;
    all["mass_only"] = {mass.resin, mass.inserts_per_foot, mass.insert_mass};
    if (board.rest_shape) {
        all["rest_shape"] = {board.rest_shape->x, board.rest_shape->value};
    }
    return all;
}

Json row_of(const Profile& profile) {
    return {static_cast<int>(profile.interpolation), profile.x, profile.value};
}

// Out of the press: nothing of it moves a number of a board without [cure].
Json cure_of(const Board& board) {
    const Cure& cure = *board.cure;
    Json all{cure.stress_free, cure.room, cure.cold, cure.moisture};
    all.push_back(cure.mould ? row_of(*cure.mould) : Json());
    for (const auto& [name, m] : board.materials) {
        all.push_back(
            {name, m.shrink1, m.shrink2, m.swell1, m.swell2, json_of(m.stress_free), m.slow});
    }
    return all;
}

} // namespace

std::string resolved_text(const Board& board) {
    Json all;
    all["name"] = board.name;
    all["lines"] = mesh_lines(board);
    all["layers"] = layers_of(board);
    all["materials"] = materials_of(board);
    all["fabrics"] = fabrics_of(board);
    all["hardware"] = hardware_of(board);
    if (board.cure) {
        all["cure"] = cure_of(board);
    }
    for (const auto& [name, limit] : board.limits) {
        all["limits"][name] = {json_of(limit.min), json_of(limit.max)};
    }
    return json_line(all);
}

std::string mesh_text(const Board& board, const MeshOptions& options) {
    Json all;
    all["lines"] = mesh_lines(board);
    all["options"] = {options.stations, options.outline_bands, options.max_size,
                      options.geometry_degree};
    return json_line(all);
}

} // namespace vrid
