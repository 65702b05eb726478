#pragma once

#include <cmath>

namespace vrid {

/// A number that changes along one parameter: its value and its first two derivatives there.
struct Taylor {
    double value = 0, first = 0, second = 0;
};

inline Taylor operator+(const Taylor& a, const Taylor& b) {
    return {a.value + b.value, a.first + b.first, a.second + b.second};
}
inline Taylor operator-(const Taylor& a, const Taylor& b) {
    return {a.value - b.value, a.first - b.first, a.second - b.second};
}
inline Taylor operator*(const Taylor& a, const Taylor& b) {
    return {a.value * b.value, a.first * b.value + a.value * b.first,
            a.second * b.value + 2 * a.first * b.first + a.value * b.second};
}
inline Taylor operator+(const Taylor& a, double b) {
    return {a.value + b, a.first, a.second};
}
inline Taylor operator*(double a, const Taylor& b) {
    return {a * b.value, a * b.first, a * b.second};
}

inline double inverse(double a) {
    return 1 / a;
}
inline Taylor inverse(const Taylor& a) {
    const double v = 1 / a.value;
    const double first = -v * v * a.first;
    return {v, first, -v * (2 * a.first * first + v * a.second)};
}

inline double root(double a) {
    return std::sqrt(a);
}
inline Taylor root(const Taylor& a) {
    const double v = std::sqrt(a.value);
    const double first = a.first / (2 * v);
    return {v, first, (a.second / 2 - first * first) / v};
}

} // namespace vrid
