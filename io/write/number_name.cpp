#include "io/write/number_name.hpp"

#include <charconv>
#include <cmath>

#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "solver/design/board_numbers.hpp"

namespace vrid {
namespace {

using Kind = NumberId::Kind;

std::string mm_text(double metres) {
    constexpr int digits = 12; // the way to SI and back takes the last three or four of sixteen
    return shortest(round_significant(metres * bench_unit(Unit::length).per_si, digits));
}

} // namespace

bool names_a_shape(const std::string& number) {
    return number.starts_with("release.") || number.starts_with("cold.") ||
           number.starts_with("mould.") || number.starts_with("pressed.");
}

std::string name_at_station(const std::string& what, double station) {
    return what + "@" + mm_text(station);
}

std::string name_while_bent(const std::string& bench, double travel) {
    const bool twist = unit_of({Kind::bench_case, bench}) == Unit::twist_stiffness;
    return bench + (twist ? " bent " : " at ") + mm_text(travel) + " mm";
}

std::string number_name(const NumberId& number) {
    switch (number.kind) {
    case Kind::mass:
        return "mass";
    case Kind::sidecut_radius:
        return "sidecut_radius";
    case Kind::length:
        return "length";
    case Kind::area:
        return "area";
    case Kind::balance_x:
        return "balance_point.x";
    case Kind::balance_y:
        return "balance_point.y";
    case Kind::bench_case:
        return number.bench_case;
    case Kind::mode:
        return case_of(number) + " mode " + std::to_string(number.mode);
    case Kind::EI:
        return name_at_station("EI", number.station);
    case Kind::GJ:
        return name_at_station("GJ", number.station);
    case Kind::thickness:
        return name_at_station("thickness", number.station);
    case Kind::shape: {
        const std::string name = number.bench_case + "." + number.shape_number;
        return number.shape_number == "concavity" ? name_at_station(name, number.station) : name;
    }
    case Kind::bent: {
        const std::string name = name_while_bent(number.bench_case, number.travel);
        return number.bent_number == "stiffness" ? name : name + "." + number.bent_number;
    }
    case Kind::strength: {
        const std::string name = "strength." + number.bench_case;
        return number.strength_number == "first" ? name : name + "." + number.strength_number;
    }
    case Kind::edge:
        break;
    }
    return "edge." + number.edge_number;
}

std::optional<double> station_in(std::string_view name, std::string_view what) {
    if (!name.starts_with(what) || !name.substr(what.size()).starts_with('@')) {
        return std::nullopt;
    }
    std::string_view place = name.substr(what.size() + 1);
    if (place.starts_with('+') && !place.starts_with("+-")) {
        place.remove_prefix(1);
    }
    double x = 0;
    const char* end = place.data() + place.size();
    const auto read = std::from_chars(place.data(), end, x);
    if (read.ec != std::errc{} || read.ptr != end || !std::isfinite(x)) {
        return std::nullopt;
    }
    return x / bench_unit(Unit::length).per_si;
}

} // namespace vrid
