#pragma once

#include <string>
#include <string_view>

#include "solver/response/quantity.hpp"

namespace vrid {

/// A unit at the border: its name and how many of it make one SI unit.
struct BenchUnit {
    std::string name;
    double per_si = 1;
};

/// The bench unit in which tables and result.json show a number.
BenchUnit bench_unit(Unit unit);

/// A unit of the input files, told by the ending of a key ("E1_GPa", "thickness_mm").
struct FileUnit {
    std::string_view suffix; ///< as keys write it, without the underscore; empty: a pure number
    std::string_view name;   ///< for people
    double multiply = 1;     ///< SI value = file value * multiply / divide, two whole factors:
    double divide = 1;       ///< 252 mm is then exactly the 0.252 m that one would write
};

/// The unit that the ending of the key names; a pure number if it names none.
FileUnit file_unit(std::string_view key);
/// A value as the file writes it under this key, in SI.
double to_si(std::string_view key, double value);
/// An SI value as the file writes it under this key.
double from_si(std::string_view key, double value);

} // namespace vrid
