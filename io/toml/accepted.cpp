#include "io/toml/accepted.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>
#include <stdexcept>

#include "io/write/units.hpp"

namespace vrid {

namespace {

// Upper bounds are far beyond any board and any material: they catch a wrong unit, not a bold
// design. A board is at most 5 m long and 200 mm thick; lab coupons and benchmark plates fit too.
constexpr double far = 5000;     // farthest station or point from the origin [mm]
constexpr double stiff = 2000;   // above diamond [GPa]
constexpr double strong = 20000; // above any fibre [MPa]

constexpr std::array ranges{
    Accepted{".format", 0, 1e6}, // then: 1
    Accepted{"planform.running_length_mm", 0, 5000, true},
    Accepted{"planform.waist_width_mm", 0, 2000, true},
    Accepted{"planform.nose_width_mm", 0, 2000, true},
    Accepted{"planform.tail_width_mm", 0, 2000, true},
    Accepted{"planform.waist_x_mm", -far, far},
    Accepted{"planform.nose_length_mm", 0, 2000, true},
    Accepted{"planform.tail_length_mm", 0, 2000, true},
    Accepted{"planform.nose_fullness", 0.2, 0.9},
    Accepted{"planform.tail_fullness", 0.2, 0.9},
    Accepted{"planform.rectangle_mm", 0, 5000, true},
    Accepted{"planform.polygon_mm", -far, far},
    Accepted{"outline.x_mm", -far, far}, // the columns of an outline_csv
    Accepted{"outline.y_mm", -far, far},
    Accepted{"core.thickness_mm.x_mm", -far, far},
    Accepted{"core.thickness_mm", 0, 200, true},
    Accepted{"core.thickness_scale", 0.05, 20}, // scales stand in no board file, only in changes
    Accepted{"layer.areal_weight_scale", 0.05, 20},
    Accepted{"core.strips.width_mm", 0.1, 1000},
    Accepted{"core.strips.x_mm", -far, far},
    Accepted{"tip_spacer.x_mm", -far, far},
    Accepted{"layer.thickness_mm", 0, 200, true},
    Accepted{"layer.angle_deg", -360, 360},
    Accepted{"layer.zone.x_mm", -far, far},
    Accepted{"layer.zone.y_mm", -far, far},
    Accepted{"layer.zone.from_mm", -far, far},
    Accepted{"layer.zone.to_mm", -far, far},
    Accepted{"layer.zone.width_mm", 0, 2000, true},
    Accepted{"layer.zone.outline_mm", 0, 2000},
    Accepted{"fabric.fibre_volume_fraction", 0.05, 0.9}, // round fibres touch at 0.907
    Accepted{"fabric.plies.angle_deg", -360, 360},
    Accepted{"fabric.plies.areal_weight_gsm", 1, 20000},
    Accepted{"fabric.plies.ply_thickness_mm", 0.001, 50},
    Accepted{"material.E_GPa", 1e-5, stiff},
    Accepted{"material.nu", -1, 0.5, true, true},
    Accepted{"material.E1_GPa", 1e-5, stiff},
    Accepted{"material.E2_GPa", 1e-5, stiff},
    Accepted{"material.nu12", -10, 10}, // and below sqrt(E1/E2)
    Accepted{"material.G12_GPa", 1e-6, stiff},
    Accepted{"material.G13_GPa", 1e-6, stiff},
    Accepted{"material.G23_GPa", 1e-6, stiff},
    Accepted{"material.density_kgm3", 1, 25000},
    Accepted{"material.alpha1_1e6K", -100, 1000},
    Accepted{"material.alpha2_1e6K", -100, 1000},
    Accepted{"material.Xt_MPa", 0, strong, true},
    Accepted{"material.Xc_MPa", 0, strong, true},
    Accepted{"material.Yt_MPa", 0, strong, true},
    Accepted{"material.Yc_MPa", 0, strong, true},
    Accepted{"material.S12_MPa", 0, strong, true},
    Accepted{"material.S13_MPa", 0, strong, true},
    Accepted{"material.S23_MPa", 0, strong, true},
    Accepted{"edge.width_mm", 0, 1000, true},
    Accepted{"edge.x_mm", -far, far},
    Accepted{"edge.flange.width_mm", 0, 1000, true},
    Accepted{"edge.flange.thickness_mm", 0, 50, true},
    Accepted{"edge.flange.fill", 0, 1, true},
    Accepted{"sidewall.width_mm", 0, 1000, true},
    Accepted{"sidewall.x_mm", -far, far},
    Accepted{"stance.width_mm", 0, 2000, true},
    Accepted{"stance.setback_mm", -1000, 1000},
    Accepted{"stance.foot_length_mm", 0, 1000, true},
    Accepted{"stance.foot_width_mm", 0, 1000, true},
    Accepted{"mass_only.resin_gsm", 0, 10000},
    Accepted{"mass_only.inserts_per_foot", 0, 1000},
    Accepted{"mass_only.insert_mass_g", 0, 1000, true},
    Accepted{"rest_shape.z_mm.x_mm", -far, far},
    Accepted{"rest_shape.z_mm", -1000, 1000},
    Accepted{"tolerance", 0, 1e6, true},
    Accepted{"tolerance.percent", 0, 100, true},
    Accepted{"edge.angle_deg", 10, 80}, // of a suite's map
    Accepted{"edge.force_N", 0, 1e5, true},
    Accepted{"edge.hardness_Npmm3", 0, 1e4, true},
    Accepted{"edge.share", 0, 1},
    Accepted{"edge.hardness", 0, 1e6, true}, // N/mm3, or N/mm2 with the linear law
    Accepted{"target.percent", -100, 1e4, true},
    Accepted{"target.value", -1e12, 1e12}, // bench units
    Accepted{"target.min", -1e12, 1e12},
    Accepted{"target.max", -1e12, 1e12},
    Accepted{"target.within_percent", 0, 100, true},
    Accepted{"target.within_mm", 0, 1000, true},
    Accepted{"free.min", -1e12, 1e12}, // then: the range of the value
    Accepted{"free.max", -1e12, 1e12},
    Accepted{"free.max_slope", 0, 10, true},
    Accepted{"free.round_to", 0, 1e6, true},
    Accepted{"reading.value", -1e12, 1e12}, // bench units
    Accepted{"reading.sd", -1e12, 1e12},    // then: above 0
    Accepted{"drift.percent", 0, 100},
    Accepted{"limits.min", -1e12, 1e12},
    Accepted{"limits.max", -1e12, 1e12},
};

} // namespace

const Accepted& accepted(std::string_view key) {
    const auto found =
        std::find_if(ranges.begin(), ranges.end(), [&](const Accepted& r) { return r.key == key; });
    if (found == ranges.end()) {
        throw std::logic_error("no accepted range for " + std::string(key));
    }
    return *found;
}

bool is_accepted(const Accepted& range, double value) {
    return std::isfinite(value) && (range.min_open ? value > range.min : value >= range.min) &&
           (range.max_open ? value < range.max : value <= range.max);
}

std::string number_text(double value) {
    std::ostringstream text;
    text << value;
    return text.str();
}

std::string accepted_text(const Accepted& range) {
    const std::string_view unit = file_unit(range.key).name;
    return "a number " + std::string(range.min_open ? "above " : "from ") + number_text(range.min) +
           (range.max_open ? " and below " : " to ") + number_text(range.max) +
           (unit.empty() ? "" : " (" + std::string(unit) + ")");
}

} // namespace vrid
