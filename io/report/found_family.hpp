#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/write/number.hpp"

namespace vrid {

/// A number that a size was matched to.
struct FoundSizeTarget {
    std::string number;
    double wanted = 0; ///< in the unit of `found`; nan: it was not finite
    BenchQuantity found;
    bool met = false;
};

/// A column of sections along a board; a missing cell is nan.
using AlongColumn = std::pair<std::string, std::vector<double>>;

/// A size of a family. What an earlier version did not write is empty.
struct FoundSize {
    std::string name;
    std::optional<double> rider; ///< [kg]
    bool met = false;
    std::vector<FoundSizeTarget> targets;
    std::vector<std::pair<std::string, double>> values;         ///< set or free, by path
    std::vector<std::pair<std::string, BenchQuantity>> figures; ///< mass, length, widths ...
    std::vector<std::pair<double, double>> outline;             ///< [mm]
    std::vector<AlongColumn> along;                             ///< as sections.csv
    [[nodiscard]] const BenchQuantity* figure(const std::string& what) const;
    [[nodiscard]] const std::vector<double>* column(const std::string& what) const;
};

/// What family.json holds.
struct FoundFamily {
    std::string program, board, hash; ///< of the approved board
    std::vector<FoundSize> sizes;
};

/// \throws InputError for damaged text, another document or another format
FoundFamily read_found_family(const std::string& text, const std::string& file);

/// The outlines of up to six sizes over each other, the middles of their running lengths on one
/// line; empty without outlines. `id` is unique on the page.
std::string sizes_picture(const std::vector<FoundSize>& sizes, const std::string& id);
std::string family_section(const FoundFamily& found);

} // namespace vrid
