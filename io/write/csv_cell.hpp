#pragma once

#include <string>
#include <vector>

#include "solver/response/quantity.hpp"

namespace vrid {

/// `shortest` text of a value rounded to nine digits; empty if it is not finite.
std::string csv_cell(double value);

/// The same of an SI value in its bench unit.
std::string csv_cell(double value, Unit unit);

/// A text as a cell. One that a spreadsheet would take for a formula (it begins with = + - @, a tab
/// or a carriage return) gets an apostrophe before it (common practice, no source); so does one
/// that begins with apostrophes before such a letter, so that csv_row gives back every text.
std::string csv_text(const std::string& text);

/// The cells of the row that begins at `at`, quotes and guards taken away; `at` moves to the next.
std::vector<std::string> csv_row(const std::string& text, std::size_t& at);

} // namespace vrid
