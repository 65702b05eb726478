#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace vrid {

/// From values to places on a picture [px]; high maps to `to`.
struct Axis {
    double low = 0, high = 1, from = 0, to = 1;
    [[nodiscard]] double at(double value) const {
        return from + (value - low) / (high - low) * (to - from);
    }
};

/// The least and the greatest of some values; `any` needs a finite one.
struct Reach {
    double low = HUGE_VAL, high = -HUGE_VAL;
    void add(double value) {
        if (std::isfinite(value)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    }
    [[nodiscard]] bool any() const { return low <= high; }
};

/// 1, 2 or 5 times a power of ten: about `count` steps over the range.
double ticks_step(double low, double high, int count);

/// Multiples of that step within the range.
std::vector<double> ticks(double low, double high, int count);

/// A tick's value with the decimals that its step needs.
std::string tick_text(double value, double step);

} // namespace vrid
