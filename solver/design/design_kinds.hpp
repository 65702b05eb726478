#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/board/material_keys.hpp"

namespace vrid {

/// How a design value acts on the numbers of a board that it stands for.
enum class DesignForm {
    value,   ///< sets them
    station, ///< sets one of a row: the core's thickness at a station
    scale    ///< multiplies them, and is 1 until it does
};

/// What a kind of design value is of.
enum class DesignProperty {
    core_scale, ///< of the core's thickness at all stations
    core_thickness,
    layer_angle,
    layer_thickness,
    layer_weight_scale, ///< of the areal weights of the layer's fabric
    fibre_fraction,     ///< of a fabric
    constant,           ///< of a material
    resin,              ///< that is mass only
    cure_stress_free,
    cure_moisture,
    // what moves lines of the mesh
    running_length,
    waist_width,
    waist_x,
    nose_width,
    nose_length,
    nose_fullness,
    tail_width,
    tail_length,
    tail_fullness,
    rectangle, ///< length and width of a coupon
    edge_width,
    edge_x,
    flange_width,
    sidewall_width,
    sidewall_x,
    zone_outline, ///< band of a layer's zone, by distance from the outline
    zone_x,
    zone_y,
    zones_outline, ///< the same of a layer with several: index 2 k and 2 k + 1 of zone k
    zones_x,
    zones_y,
    stance_width,
    stance_setback,
    foot_length,
    foot_width,
    tip_spacer_x,
    core_station,
    rest_station,
    mould_station ///< of a mould that exists: no line of the mesh
};

/// One kind of design value. The tables in design_kinds.cpp hold every kind that is a number; who
/// lists, reads, sets or differentiates design values goes by them.
struct DesignKind {
    DesignProperty property = DesignProperty::constant;
    const MaterialKey* constant = nullptr; ///< which, for a material's
    DesignForm form = DesignForm::value;
    double step = 0;           ///< what a workshop would change it by, SI; 0: a tenth of its value
    bool may_be_zero = false;  ///< changes of it are differences, not ratios
    bool moves_numbers = true; ///< false: no number of a board depends on it yet
    bool of_cure = false;      ///< moves numbers of a board with a cure only
    bool moves_lines = false;  ///< of the mesh: a board of another shape
};

/// Which design value of a board. How files and people write it: io/write/design_path.
struct DesignId {
    const DesignKind* kind = nullptr; ///< a row of the tables, there for good
    std::string part;                 ///< name of the layer, fabric or material; else empty
    std::size_t index = 0;            ///< of a station; else 0
    bool operator==(const DesignId&) const = default;
};

/// A design value of one board, and the numbers of that board it stands for.
struct DesignPlace {
    DesignId id;
    std::vector<double*> numbers;              ///< in the board, SI; empty with `strength`
    std::optional<double>* strength = nullptr; ///< a number of the board that may be absent
    Layer* layer = nullptr;                    ///< whose it is; or null, as the next two
    Fabric* fabric = nullptr;
    Material* material = nullptr;
    Planform* coupon = nullptr; ///< whose length or width it is; `numbers` is empty then
};

/// All design values of a board that are numbers: of the core, of each layer upwards, of fabrics
/// and materials by name, of what is mass only, then what moves lines. The places are in the board
/// and end with it.
std::vector<DesignPlace> design_places(Board& board);

/// What a scale of areal weight multiplies.
std::vector<double*> weights_of(Fabric& fabric);

/// The value now, SI; 1 for a scale. Nothing for a strength that the material does not have.
std::optional<double> value_now(const DesignPlace& place);

/// Gives a place its value, SI: a scale multiplies; what follows in an isotropic material follows.
/// Of a value that moves lines the outline follows by `redraw` (line_kinds.hpp), once all are set.
/// A fabric is shared by the layers that name it: give a layer its own before scaling it.
void set_value(const DesignPlace& place, double value);

} // namespace vrid
