#include "io/report/axis.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"

namespace vrid {

double ticks_step(double low, double high, int count) {
    const double raw = (high - low) / count;
    const double power = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (raw <= factor * power) {
            return factor * power;
        }
    }
    return 10 * power;
}

std::vector<double> ticks(double low, double high, int count) {
    constexpr double rounding = 1e-9; // a tick on an end is one
    const double step = ticks_step(low, high, count);
    std::vector<double> all;
    for (double k = std::ceil(low / step - rounding); k <= high / step + rounding; ++k) {
        all.push_back(k * step);
    }
    return all;
}

std::string tick_text(double value, double step) {
    return fixed(value, std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9))));
}

} // namespace vrid
