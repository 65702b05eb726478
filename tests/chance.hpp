#pragma once

#include <algorithm>
#include <random>
#include <vector>

namespace vrid::tests {

/// Random numbers that are the same everywhere: mt19937 is, the distributions of the standard
/// library are not.
class Chance {
  public:
    explicit Chance(unsigned seed) : random_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(random_()) / 4294967296.0;
    }
    bool with(double share) { return between(0, 1) < share; }
    int count(int low, int high) { // both included
        return std::min(high, static_cast<int>(between(low, high + 1)));
    }
    template <class Value> const Value& one_of(const std::vector<Value>& values) {
        return values[static_cast<std::size_t>(count(0, static_cast<int>(values.size()) - 1))];
    }

  private:
    std::mt19937 random_;
};

} // namespace vrid::tests
