#pragma once

#include <cmath>

namespace vrid {

/// How many significant digits tell a value from its bound: `digits`, or as many more as it takes
/// that the two are not printed alike: 0.15004 and 0.15 want five, equal ones no more.
inline int digits_apart(double value, double bound, int digits) {
    constexpr int most = 17; // of a double
    const auto shown = [](double number, int count) {
        const double place = number == 0 ? 0 : std::floor(std::log10(std::abs(number)));
        const double step = std::pow(10.0, place + 1 - count);
        return std::round(number / step) * step;
    };
    const auto alike = [&](int count) {
        return std::abs(shown(value, count) - shown(bound, count)) <= 1e-15 * std::abs(bound);
    };
    while (value != bound && digits < most && alike(digits)) {
        ++digits;
    }
    return digits;
}

} // namespace vrid
