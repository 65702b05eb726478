#include "solver/design/workshop_step.hpp"

#include <cmath>
#include <map>
#include <numbers>

namespace vrid {

double workshop_step(const DesignValue& value) {
    static const std::map<std::string, double> steps{
        {"core.thickness_mm", 1e-4},        {"layer.thickness_mm", 1e-4},
        {"core.thickness_scale", 0.01},     {"layer.angle_deg", std::numbers::pi / 180},
        {"layer.areal_weight_scale", 0.05}, {"fabric.fibre_volume_fraction", 0.02},
        {"mass_only.resin_gsm", 0.03}};
    const auto found = steps.find(value.range);
    return found != steps.end() ? found->second : 0.1 * std::abs(value.value);
}

} // namespace vrid
