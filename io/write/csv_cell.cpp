#include "io/write/csv_cell.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {

std::string csv_cell(double value) {
    constexpr int digits = 9;
    if (!std::isfinite(value)) {
        return "";
    }
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(),
                                   round_significant(value, digits) + 0.0); // + 0.0: no "-0"
    return {buffer.data(), end.ptr};
}

std::string csv_cell(double value, Unit unit) {
    return csv_cell(to_bench({value, 0, unit}).value);
}

} // namespace vrid
