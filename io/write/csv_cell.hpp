#pragma once

#include <string>

#include "solver/response/quantity.hpp"

namespace vrid {

/// Shortest text of a value rounded to nine digits; empty if it is not finite.
std::string csv_cell(double value);

/// The same of an SI value in its bench unit.
std::string csv_cell(double value, Unit unit);

} // namespace vrid
