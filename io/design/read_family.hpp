#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/design/design_values.hpp"
#include "io/toml/table_reader.hpp"
#include "solver/design/free_value.hpp"
#include "solver/design/goal.hpp"

namespace vrid {

/// One size of a family: how its board differs from the approved one before it is matched.
struct FamilySize {
    std::string name;
    std::optional<double> rider;      ///< [kg]
    std::vector<Change> set;          ///< in the units of their paths
    std::optional<double> sidecut;    ///< [m]; the waist width follows from it
    std::vector<std::string> stretch; ///< stations that go with the running length: patterns
    std::string place;                ///< file:line:column
};

/// What a goal file says of several sizes; no sizes: it is of one board.
struct Family {
    std::optional<double> approved_rider; ///< [kg]
    std::vector<FamilySize> sizes;
    /// By target: powers of size over approved, of "rider_kg" and of design values by path.
    std::vector<std::map<std::string, double>> scale;
};

/// What same_as says of the board of the command line.
constexpr const char* same_as_approved = "approved";

/// Reads [approved] and [[size]]. Problems go to the reading: names twice, paths that the board
/// does not have, stretch of what is no station
Family read_family(TableReader& root, const Board& board);
/// `scale` of a target: read when the goal is of a family.
std::map<std::string, double> read_scale(TableReader& target, const Family& family,
                                         const Board& board);
/// What the sizes and the rest of the goal cannot have together: a sidecut radius beside free
/// values of the outline.
void check_family(const Family& family, const std::vector<FreeValue>& free, Reading& reading);

} // namespace vrid
