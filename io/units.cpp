#include "io/units.hpp"

#include <numbers>

namespace vrid {

BenchUnit bench_unit(Unit unit) {
    switch (unit) {
    case Unit::none:
        return {"", 1};
    case Unit::mass:
        return {"kg", 1};
    case Unit::length:
        return {"mm", 1e3};
    case Unit::area:
        return {"m2", 1};
    case Unit::angle:
        return {"deg", 180 / std::numbers::pi};
    case Unit::bending_stiffness:
    case Unit::line_force:
        return {"N/mm", 1e-3};
    case Unit::twist_stiffness:
        return {"N m/deg", std::numbers::pi / 180};
    case Unit::section_stiffness:
        return {"N m2", 1};
    case Unit::mass_per_length:
        return {"kg/m", 1};
    case Unit::frequency:
        return {"Hz", 1};
    case Unit::moment:
        return {"N m", 1};
    }
    return {"", 1};
}

} // namespace vrid
