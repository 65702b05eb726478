#include "io/write/number.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "io/write/units.hpp"
#include "solver/response/error_bar.hpp"

namespace vrid {
namespace {

constexpr int most_digits = 6; // of a value, however small its bar: nobody's rig reads more
constexpr int digits_without_bar = 4;

/// Place of the first significant digit: 0 for 1..9.99, -1 for 0.1..0.99.
int magnitude(double value) {
    return value == 0 || !std::isfinite(value)
               ? 0
               : static_cast<int>(std::floor(std::log10(std::abs(value))));
}

/// Decimals that show the bar with one digit, or two when the first is a 1.
int decimals_of_bar(double error) {
    const int place = magnitude(error);
    const bool starts_with_one = error < 2 * std::pow(10.0, place);
    return -place + (starts_with_one ? 1 : 0);
}

} // namespace

BenchQuantity to_bench(const Quantity& quantity) {
    const BenchUnit unit = bench_unit(quantity.unit);
    return {quantity.value * unit.per_si, quantity.error * unit.per_si, unit.name};
}

std::string fixed(double value, int decimals) {
    if (std::isnan(value)) {
        return "nan";
    }
    if (std::isinf(value)) {
        return value > 0 ? "inf" : "-inf";
    }
    std::array<char, 400> digits{}; // the largest double has 309 digits before the point
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value,
                                   std::chars_format::fixed, std::clamp(decimals, 0, 60));
    std::string text(digits.data(), end.ptr);
    const bool zero = text.find_first_not_of("-0.") == std::string::npos;
    return zero && text.front() == '-' ? text.substr(1) : text;
}

double round_significant(double value, int digits) {
    if (!std::isfinite(value)) {
        return value;
    }
    std::array<char, 64> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::scientific, digits - 1);
    double result = value;
    std::from_chars(buffer.data(), end.ptr, result);
    return result;
}

std::string significant(double value, int digits) {
    const double near = round_significant(value, digits);
    return fixed(near, digits - 1 - magnitude(near));
}

std::string short_number(double value, int digits) {
    std::string text = significant(value, digits);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        text.erase(text.find_last_not_of('.') + 1);
    }
    return text;
}

std::string shortest(double value) {
    constexpr double least_plain = 1e-6;
    constexpr double most_plain = 1e12;
    const double size = std::abs(value);
    const bool plain = size == 0 || (size >= least_plain && size < most_plain);
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   plain ? std::chars_format::fixed : std::chars_format::general);
    return {buffer.data(), end.ptr};
}

RoundedNumber rounded(double value, double error) {
    if (!(error > 0) || !std::isfinite(error) || !std::isfinite(value)) {
        return {significant(value, digits_without_bar), ""};
    }
    const int fine = most_digits - 1 - magnitude(value);
    const int decimals = std::max(0, std::min(decimals_of_bar(error), fine));
    const double step = std::pow(10.0, -decimals);
    // Up, so that the printed bar is never smaller than the true one; a hair less, so that 0.02
    // stored as 0.020000000000000004 stays 0.02.
    const double up = std::ceil(error / step * (1 - 1e-9)) * step;
    return {fixed(value, decimals), fixed(up, decimals)};
}

std::string text(const BenchQuantity& quantity) {
    const RoundedNumber number = rounded(quantity.value, quantity.error);
    return number.value + (number.error.empty() ? "" : " +- " + number.error) +
           (quantity.unit.empty() ? "" : " " + quantity.unit);
}

double in_mm(double metres, int digits) {
    return round_significant(metres * bench_unit(Unit::length).per_si, digits) + 0.0;
}

std::string bar_cell(const BenchQuantity& quantity) {
    if (!(quantity.error < no_bar)) {
        return "no bar";
    }
    const RoundedNumber shown = rounded(quantity.value, quantity.error);
    return shown.error.empty() ? "" : "+- " + shown.error;
}

} // namespace vrid
