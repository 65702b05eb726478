#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace vrid {

/// What stands behind a key of the board file.
enum class KeyForm {
    number,
    whole, ///< a whole number
    text,
    flag,     ///< true or false
    pair,     ///< [a, b], two numbers
    stations, ///< [[x, value], ...], x rising
    points,   ///< [[x, y], ...]
    table,    ///< a table of its own
    tables    ///< an array of tables, or a table by name
};

/// What a number may be, in the unit that its key names.
struct Bounds {
    double min = 0, max = 0;
    bool min_open = false, max_open = false; ///< the bound itself is refused
};

constexpr Bounds bounds(double min, double max) {
    return {min, max};
}
constexpr Bounds bounds_above(double min, double max) {
    return {min, max, true};
}
constexpr Bounds no_bounds{};
constexpr Bounds any_station{-5000, 5000}; ///< a station or a point [mm]

/// A key of the board file (format 1). The rows in board_keys.cpp are all that there are: the
/// reader takes ranges and defaults from them, `vrid keys` prints them, `vrid new` comments a file
/// by them.
struct BoardKey {
    std::string_view table; ///< "core.strips"; empty: at the top of the file
    std::string_view key;   ///< "width_mm": the ending tells the unit
    KeyForm form = KeyForm::number;
    Bounds bounds; ///< of a number, or of each of several
    /// "required"; when it is; else the value it has when the file is silent, empty if none.
    std::string_view otherwise;
    std::string_view meaning; ///< one line
    std::string_view sample;  ///< as a file might write it

    [[nodiscard]] bool holds_numbers() const;
};

const std::vector<BoardKey>& board_keys();

/// The tables of the board file in the order of board_keys; the top of the file is "".
std::vector<std::string> board_tables();

/// The row of a key; null if the table has none of that name.
const BoardKey* find_board_key(std::string_view table, std::string_view key);

/// Keys of zones, inlays, unequal halves and bevels of the core, and of files to include.
std::vector<BoardKey> construction_keys();

/// The rows with more: each after the last one of its table, a new table after the one that it is
/// in ("layer.zones" after the last of "layer" and what is in it).
std::vector<BoardKey> with_rows(std::vector<BoardKey> rows, const std::vector<BoardKey>& more);

/// The rows with those of tables that have the keys of another: "layer.zones" those of
/// "layer.zone".
std::vector<BoardKey> with_alike_tables(std::vector<BoardKey> rows);

/// The keys of [cure], and those of a material that only a cure asks for.
std::vector<BoardKey> cure_keys();

} // namespace vrid
