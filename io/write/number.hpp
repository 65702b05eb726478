#pragma once

#include <string>

#include "solver/response/quantity.hpp"

namespace vrid {

/// A quantity in its bench unit, as tables and result.json show it.
struct BenchQuantity {
    double value = 0;
    double error = 0; ///< half width of its bar; 0: exact; no_bar: not known
    std::string unit; ///< "N m/deg"
};

/// A value and its error bar as text, rounded together: "12.84" and "0.02".
struct RoundedNumber {
    std::string value;
    std::string error; ///< empty when there is no bar
};

/// From SI to the bench unit of its dimension.
BenchQuantity to_bench(const Quantity& quantity);

/// `decimals` digits after the point, never "-0.00"; "inf" and "nan" in words. Any locale.
std::string fixed(double value, int decimals);

/// Rounded to `digits` significant digits, without an exponent: 0.0123, 8.41, 12300.
std::string significant(double value, int digits);

/// The same without zeros at the end of decimals, as people write it: 3.5, not 3.500.
std::string short_number(double value, int digits);

/// The shortest text that gives the same double back, without an exponent from 1e-6 to 1e12:
/// 300000, not 3e+05.
std::string shortest(double value);

/// The bar is rounded up to one digit (two when the first is 1), the value to the bar's last digit;
/// never more than six significant digits of the value. Without a bar: four significant digits.
RoundedNumber rounded(double value, double error);

/// "12.84 +- 0.02 N m/deg"; without a bar "12.84 N m/deg".
std::string text(const BenchQuantity& quantity);

/// Nearest double with `digits` significant decimal digits, so that JSON shows no noise.
double round_significant(double value, int digits);
/// A length in mm, so rounded, never minus zero.
double in_mm(double metres, int digits);

/// What stands in a table's column of bars: "+- 0.02"; "no bar" where nothing tells the error;
/// nothing where there is none.
std::string bar_cell(const BenchQuantity& quantity);

} // namespace vrid
