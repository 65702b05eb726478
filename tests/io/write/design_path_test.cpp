// Paths of design values against the keys of the board file, one a kind.
#include "io/write/design_path.hpp"

#include <catch2/catch.hpp>

#include "mesh/board/material_keys.hpp"

using namespace vrid;

namespace {

std::string path(DesignProperty property, const std::string& part = "", std::size_t index = 0,
                 DesignForm form = DesignForm::value) {
    const DesignKind kind{property, nullptr, form};
    return path_of({&kind, part, index});
}

} // namespace

TEST_CASE("a design value's path is table, part and key of the board file") {
    using P = DesignProperty;
    constexpr auto station = DesignForm::station;
    CHECK(path(P::core_scale) == "core.thickness_scale");
    CHECK(path(P::core_thickness, "", 3, station) == "core.thickness_mm[3]");
    CHECK(path(P::layer_angle, "lower glass") == "layer.lower glass.angle_deg");
    CHECK(path(P::layer_thickness, "base") == "layer.base.thickness_mm");
    CHECK(path(P::layer_weight_scale, "ribbon") == "layer.ribbon.areal_weight_scale");
    CHECK(path(P::fibre_fraction, "triax-740") == "fabric.triax-740.fibre_volume_fraction");
    CHECK(path(P::resin) == "mass_only.resin_gsm");
    CHECK(path(P::cure_stress_free) == "cure.stress_free_C");
    CHECK(path(P::cure_moisture) == "cure.moisture_percent");
    CHECK(path(P::running_length) == "planform.running_length_mm");
    CHECK(path(P::waist_width) == "planform.waist_width_mm");
    CHECK(path(P::waist_x) == "planform.waist_x_mm");
    CHECK(path(P::nose_width) == "planform.nose_width_mm");
    CHECK(path(P::nose_length) == "planform.nose_length_mm");
    CHECK(path(P::nose_fullness) == "planform.nose_fullness");
    CHECK(path(P::tail_width) == "planform.tail_width_mm");
    CHECK(path(P::tail_length) == "planform.tail_length_mm");
    CHECK(path(P::tail_fullness) == "planform.tail_fullness");
    CHECK(path(P::rectangle, "", 1, station) == "planform.rectangle_mm[1]");
    CHECK(path(P::edge_width) == "edge.width_mm");
    CHECK(path(P::edge_x, "", 1, station) == "edge.x_mm[1]");
    CHECK(path(P::flange_width) == "edge.flange.width_mm");
    CHECK(path(P::sidewall_width) == "sidewall.width_mm");
    CHECK(path(P::sidewall_x, "", 0, station) == "sidewall.x_mm[0]");
    CHECK(path(P::stance_width) == "stance.width_mm");
    CHECK(path(P::stance_setback) == "stance.setback_mm");
    CHECK(path(P::foot_length) == "stance.foot_length_mm");
    CHECK(path(P::foot_width) == "stance.foot_width_mm");
    CHECK(path(P::tip_spacer_x, "", 1, station) == "tip_spacer.x_mm[1]");
    CHECK(path(P::core_station, "", 2, station) == "core.station_mm[2]");
    CHECK(path(P::rest_station, "", 2, station) == "rest_shape.station_mm[2]");
    CHECK(path(P::mould_station, "", 2, station) == "cure.mould_mm[2]");
}

TEST_CASE("the ends of a zone are counted from 0, two a zone where a layer has several") {
    using P = DesignProperty;
    constexpr auto station = DesignForm::station;
    CHECK(path(P::zone_outline, "rubber", 0, station) == "layer.rubber.zone.outline_mm[0]");
    CHECK(path(P::zone_x, "rubber", 1, station) == "layer.rubber.zone.x_mm[1]");
    CHECK(path(P::zone_y, "rubber", 1, station) == "layer.rubber.zone.y_mm[1]");
    CHECK(path(P::zones_outline, "rubber", 1, station) == "layer.rubber.zones[0].outline_mm[1]");
    CHECK(path(P::zones_x, "rubber", 4, station) == "layer.rubber.zones[2].x_mm[0]");
    CHECK(path(P::zones_y, "rubber", 3, station) == "layer.rubber.zones[1].y_mm[1]");
}

TEST_CASE("a material's constant has its own key; its range is the key without the name") {
    const MaterialKey& first = material_keys(false).front();
    const DesignKind constant{DesignProperty::constant, &first};
    CHECK(path_of({&constant, "ash", 0}) == "material.ash.E1_GPa");
    CHECK(range_of(constant) == "material.E1_GPa");
    const DesignKind angle{DesignProperty::layer_angle};
    CHECK(range_of(angle) == "layer.angle_deg");
    const DesignKind zone{DesignProperty::zones_x, nullptr, DesignForm::station};
    CHECK(range_of(zone) == "layer.zone.x_mm");
}
