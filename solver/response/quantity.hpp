#pragma once

#include <optional>
#include <string>

namespace vrid {

/// Dimension of a number; values are SI inside, io/write/units turns them into bench units.
enum class Unit {
    none,              ///< a plain number
    mass,              ///< kg
    length,            ///< m
    radius,            ///< m, shown in m
    area,              ///< m2
    angle,             ///< rad
    bending_stiffness, ///< N/m, force over deflection
    twist_stiffness,   ///< N m/rad, torque over angle
    section_stiffness, ///< N m2, EI and GJ
    mass_per_length,   ///< kg/m
    frequency,         ///< Hz
    line_force,        ///< N/m
    moment,            ///< N m
    force              ///< N
};

/// A number with the half width of its error bar, both SI.
struct Quantity {
    double value = 0;       ///< SI
    double error = 0;       ///< 0: exact, or not asked for; infinite: not known
    Unit unit = Unit::none; ///< of both
};

/// A number of a case, or of the board.
struct NamedQuantity {
    std::string name;                ///< as result.json writes it: "stiffness", "mode 1", "camber"
    Quantity quantity;               ///< its value and bar
    std::optional<double> station{}; ///< of a number that a case gives at several [m]
};

} // namespace vrid
