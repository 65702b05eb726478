#include "mesh/board/check_board.hpp"

#include <algorithm>
#include <set>

#include "mesh/board/check_zones.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"

namespace vrid {

namespace {

using Faults = std::vector<BoardFault>;

// Whether the pieces follow each other around the board, counter-clockwise.
bool is_closed(const Planform& planform) {
    const std::size_t pieces = planform.outline.size();
    for (std::size_t i = 0; i < pieces; ++i) {
        const OutlinePiece& next = planform.outline[(i + 1) % pieces];
        const double gap = (point_at(planform.outline[i], 1) - point_at(next, 0)).norm();
        if (!(gap <= same_place)) { // nan, too
            return false;
        }
    }
    return area(planform) > 0;
}

// Where the bench holds and loads it there must be board.
void check_contact_lines(const Planform& planform, PartCheck& check) {
    constexpr double narrowest = 1e-3; // a line that a bench can hold and load [m]
    for (const double sign : {-1.0, 1.0}) {
        const double x = sign * planform.running_length / 2;
        const double width = width_at(planform, x);
        if (width < narrowest) {
            check.note(Fault::narrow_contact, "running_length", {planform.running_length},
                       {width, x});
            return;
        }
    }
    for (const std::size_t side : {0, 1}) {
        const std::optional<Range>& own = planform.edge_contact[side];
        const std::string_view field = side == 0 ? "contact_left" : "contact_right";
        if (!check.range(field, own) || !own) {
            continue;
        }
        const auto narrow = std::find_if(
            own->begin(), own->end(), [&](double x) { return width_at(planform, x) < narrowest; });
        if (narrow != own->end()) {
            check.note(Fault::narrow_contact, field, {(*own)[0], (*own)[1]},
                       {width_at(planform, *narrow), *narrow});
        }
    }
}

// True when other parts can be looked at on it.
bool check_planform(const Planform& planform, Faults& faults) {
    constexpr double longest_board = 5; // [m]
    PartCheck check(faults, {PartOfBoard::planform});
    if (planform.outline.empty()) {
        check.note(Fault::empty, "");
        return false;
    }
    if (!check.positive("running_length", planform.running_length)) {
        return false;
    }
    if (!is_closed(planform)) {
        check.note(Fault::open_outline, "");
        return false;
    }
    const auto [tail, nose] = x_extent(planform);
    const double half = planform.running_length / 2;
    if (-half < tail - same_place || half > nose + same_place) {
        check.note(Fault::contact_off_board, "running_length", {planform.running_length},
                   {tail, nose});
        return false;
    }
    if (nose - tail > longest_board) {
        check.note(Fault::long_board, "running_length", {}, {longest_board});
        return false;
    }
    check_contact_lines(planform, check);
    return true;
}

void check_strip(const Strip& strip, const Board& board, const Planform* planform,
                 PartCheck check) {
    check.known("material", strip.material, board.materials);
    check.positive("width", strip.width);
    check_stations(strip.x, planform, check);
    if (!strip.fill.empty()) {
        check.known("fill", strip.fill, board.materials);
        if (!strip.x) {
            check.note(Fault::fill_everywhere, "fill");
        }
    }
}

void check_core(const Board& board, const Planform* planform, Faults& faults) {
    PartCheck check(faults, {PartOfBoard::core});
    const bool layer = has_core_layer(board);
    if (board.core.has_value() != layer) {
        check.note(layer ? Fault::no_core : Fault::idle_core, "");
    }
    if (!board.core) {
        return;
    }
    const Core& core = *board.core;
    check.profile("thickness", core.thickness);
    for (std::size_t i = 0; i < core.thickness.value.size(); ++i) {
        if (core.thickness.value[i] <= 0) {
            check.note(Fault::not_positive, "thickness", {core.thickness.value[i]}, {},
                       static_cast<int>(i));
        }
    }
    if (core.cross) {
        check.profile("cross", *core.cross);
        if (core.cross->interpolation != Interpolation::linear) {
            check.note(Fault::curved_cross, "cross");
        }
    }
    if (core.strips.empty()) {
        check.note(Fault::empty, "strips");
    }
    for (const auto& [key, strips] :
         {std::pair("strips", &core.strips), std::pair("strips_right", &core.strips_right)}) {
        for (std::size_t i = 0; i < strips->size(); ++i) {
            check_strip((*strips)[i], board, planform, check.in(key, static_cast<int>(i)));
        }
    }
}

void check_kind(const Layer& layer, const Board& board, PartCheck& check) {
    if (layer.kind == LayerKind::material) {
        check.known("material", layer.material, board.materials);
        check.positive("thickness", layer.thickness);
    } else if (layer.kind == LayerKind::fabric) {
        check.known("fabric", layer.fabric, board.fabrics);
    } else {
        if (layer.mirror) {
            check.note(Fault::mirror_core, "mirror");
        }
        if (layer.inlay) {
            check.note(Fault::inlay_core, "inlay");
        }
    }
}

void check_layers(const Board& board, const Planform* planform, Faults& faults) {
    if (board.layers.empty()) {
        PartCheck(faults, {PartOfBoard::layer}).note(Fault::empty, "");
    }
    std::set<std::string> names;
    bool core = false;
    const bool any_core = has_core_layer(board);
    for (std::size_t i = 0; i < board.layers.size(); ++i) {
        const Layer& layer = board.layers[i];
        PartCheck check(faults, {PartOfBoard::layer, layer.name, static_cast<int>(i)});
        if (layer.name.empty()) {
            check.note(Fault::empty, "name");
        } else if (!names.insert(layer.name).second) {
            check.note(Fault::name_twice, "name");
            faults.back().text = layer.name;
        }
        check_kind(layer, board, check);
        check.finite("angle", layer.angle);
        check_zones(layer, planform, check);
        if (layer.kind == LayerKind::core && core) {
            check.note(Fault::second_core_layer, "core");
        }
        core = core || layer.kind == LayerKind::core;
        if (layer.inlay && !any_core) {
            check.note(Fault::inlay_without_core, "inlay");
        }
    }
}

void check_cure(const Cure& cure, Faults& faults) {
    PartCheck check(faults, {PartOfBoard::cure});
    check.finite("stress_free", cure.stress_free);
    check.finite("room", cure.room);
    check.finite("cold", cure.cold);
    check.finite("moisture", cure.moisture);
    if (cure.mould) {
        check.profile("mould", *cure.mould);
    }
}

void check_demands(const Board& board, Faults& faults) {
    for (const auto& [name, entry] : board.tolerance) {
        PartCheck(faults, {PartOfBoard::tolerance, name}).not_negative("", entry.value);
    }
    for (const auto& [name, limit] : board.limits) {
        PartCheck check(faults, {PartOfBoard::limit, name});
        const bool min = !limit.min || check.finite("min", *limit.min);
        const bool max = !limit.max || check.finite("max", *limit.max);
        if (min && max && limit.min && limit.max && *limit.min > *limit.max) {
            check.note(Fault::limits_cross, "max", {*limit.max});
        }
    }
}

} // namespace

std::vector<BoardFault> check_board(const Board& board) {
    Faults faults;
    const Planform* planform = check_planform(board.planform, faults) ? &board.planform : nullptr;
    check_core(board, planform, faults);
    check_layers(board, planform, faults);
    for (const auto& [name, material] : board.materials) {
        check_material(name, material, faults);
    }
    for (const auto& [name, fabric] : board.fabrics) {
        check_fabric(name, fabric, board.materials, faults);
    }
    check_hardware(board, planform, faults);
    if (board.cure) {
        check_cure(*board.cure, faults);
    }
    check_demands(board, faults);
    return faults;
}

} // namespace vrid
