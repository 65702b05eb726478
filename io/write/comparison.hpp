#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/write/number.hpp"
#include "io/write/solved_board.hpp"

namespace vrid {

/// One board's value of a number, against the first board's.
struct ComparedValue {
    std::optional<BenchQuantity> quantity; ///< nothing: this board has no such number
    std::optional<double> percent;         ///< 100 (value - first) / |first|; nothing for the first
    std::optional<double> difference{};    ///< instead, of a shape out of the press
    double percent_error = 0;              ///< half width, from the sum of the two bars
    bool resolved = false;                 ///< |difference| > the sum of the two error bars
};

struct ComparedNumber {
    std::string name;
    std::vector<ComparedValue> by_board; ///< in the order of the boards
};

struct Comparison {
    std::vector<std::string> boards; ///< names
    std::vector<std::string> files;  ///< as they were named to the program
    std::vector<std::string> hashes;
    std::vector<std::vector<std::string>> set; ///< by board: what --set changed
    std::vector<ComparedNumber> numbers;
    std::vector<std::vector<std::pair<std::string, std::string>>> skipped; ///< by board: case, why
};

/// Numbers of all boards side by side, in the order in which they first appear.
Comparison compare_boards(const std::vector<SolvedBoard>& boards);

/// Tables for an 80-column terminal: the first board beside each of the others.
std::string text(const Comparison& comparison);

/// {"format", "program", "boards": [{"name", "hash"}], "numbers": {NAME: [{"value", "unit",
/// "error", "percent", "percent_error", "resolved"} or null, by board]}, "skipped": [{CASE: why}]}.
std::string json(const Comparison& comparison);

} // namespace vrid
