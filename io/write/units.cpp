#include "io/write/units.hpp"

#include <array>
#include <numbers>

namespace vrid {

namespace {

// "1e6K" is the factor in front of the value: alpha1_1e6K = 8.6 means 8.6e-6 per kelvin.
constexpr std::array<FileUnit, 12> file_units{{
    {"mm", "mm", 1, 1e3},
    {"deg", "deg", std::numbers::pi, 180},
    {"gsm", "g/m2", 1, 1e3},
    {"GPa", "GPa", 1e9, 1},
    {"MPa", "MPa", 1e6, 1},
    {"kgm3", "kg/m3", 1, 1},
    {"1e6K", "1e-6/K", 1, 1e6},
    {"g", "g", 1, 1e3},
    {"N", "N", 1, 1},
    {"Npmm3", "N/mm3", 1e9, 1},
    {"Npmm2", "N/mm2", 1e6, 1},
    {"C", "deg C", 1, 1},
}};

// Keys of strains and moisture; other percentages are no values of a board.
struct PercentUnit {
    std::string_view ending;
    FileUnit unit;
};
constexpr FileUnit percent{"percent", "%", 1, 100};
constexpr FileUnit percent_a_point{"percent", "%/point", 1, 1};
constexpr std::array<PercentUnit, 5> percent_units{{
    {"moisture_percent", percent},
    {"shrink1_percent", percent},
    {"shrink2_percent", percent},
    {"swell1_percent", percent_a_point},
    {"swell2_percent", percent_a_point},
}};

} // namespace

FileUnit file_unit(std::string_view key) {
    const auto underscore = key.rfind('_');
    for (const PercentUnit& one : percent_units) {
        if (key.ends_with(one.ending)) {
            return one.unit;
        }
    }
    if (underscore != std::string_view::npos) {
        const std::string_view suffix = key.substr(underscore + 1);
        for (const FileUnit& unit : file_units) {
            if (unit.suffix == suffix) {
                return unit;
            }
        }
    }
    return {"", "", 1, 1};
}

double to_si(std::string_view key, double value) {
    const FileUnit unit = file_unit(key);
    return value * unit.multiply / unit.divide;
}

double from_si(std::string_view key, double value) {
    const FileUnit unit = file_unit(key);
    return value * unit.divide / unit.multiply;
}

BenchUnit bench_unit(Unit unit) {
    switch (unit) {
    case Unit::none:
        return {"", 1};
    case Unit::mass:
        return {"kg", 1};
    case Unit::length:
        return {"mm", 1e3};
    case Unit::radius:
        return {"m", 1};
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
    case Unit::force:
        return {"N", 1};
    case Unit::moment:
        return {"N m", 1};
    }
    return {"", 1};
}

} // namespace vrid
