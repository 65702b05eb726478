#pragma once

#include <string>
#include <vector>

namespace vrid {

enum class Align {
    left,
    right,
    decimal ///< by the decimal point; text without digits is set right
};

struct Column {
    std::string title;
    std::string unit; ///< shown in brackets under the title; may be empty
    Align align = Align::left;
};

inline Column left(const std::string& title, const std::string& unit = "") {
    return {title, unit, Align::left};
}
inline Column right(const std::string& title, const std::string& unit = "") {
    return {title, unit, Align::right};
}
inline Column decimal(const std::string& title, const std::string& unit = "") {
    return {title, unit, Align::decimal};
}

/// A table for people on a terminal. Every row has one cell per column, short rows are filled.
struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows{};
};

/// The table as lines: titles, units (if any), a rule, rows. Two blanks before and between columns,
/// none at line ends. Empty columns (no title, unit or cell) are left out.
std::string text(const Table& table);

/// Breaks text at blanks into lines of at most `width` characters, each after `indent` blanks.
std::string wrapped(const std::string& text, std::size_t width, std::size_t indent = 0);

} // namespace vrid
