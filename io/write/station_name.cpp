#include "io/write/station_name.hpp"

#include <charconv>
#include <cmath>

#include "io/write/units.hpp"

namespace vrid {

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
