#pragma once

#include <array>
#include <charconv>
#include <cmath>
#include <string>

#include "chance.hpp"

namespace vrid::tests {

/// The numbers of one board file: a hand writes round ones, a program odd ones.
class FileNumbers {
  public:
    explicit FileNumbers(unsigned seed) : chance(seed), hand_(chance.count(0, 3)) {}

    /// A number between low and high as this file's author writes it, `fine` the step of a ruler.
    double between(double low, double high, double fine) {
        const double value = chance.between(low, high);
        const double step = hand_ == 0 ? 10 * fine : hand_ == 1 ? fine : fine / 100;
        const double rounded = std::round(value / step) * step;
        return hand_ == 3 || rounded < low || rounded > high ? value : rounded;
    }
    /// Sometimes the last digits are not those that were meant.
    double hair(double value) {
        return chance.with(0.1) ? value + chance.one_of<double>({-1e-7, 1e-7, 1e-9, -1e-9}) : value;
    }

    Chance chance;

  private:
    int hand_;
};

inline std::string text_of(double value) {
    std::array<char, 40> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value);
    return {digits.data(), end.ptr};
}

/// [a, b, ...]
inline std::string text_of(const std::vector<double>& values) {
    std::string all;
    for (const double value : values) {
        all += (all.empty() ? "" : ", ") + text_of(value);
    }
    return "[" + all + "]";
}

} // namespace vrid::tests
