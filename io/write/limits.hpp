#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/write/board_figures.hpp"
#include "io/write/number.hpp"
#include "mesh/board/board.hpp"
#include "solver/response/quantity.hpp"

namespace vrid {

/// One of a board's [limits] held against its number.
struct LimitVerdict {
    std::string name;
    Limit limit;                        ///< bench units, as the board file writes them
    std::optional<BenchQuantity> found; ///< nothing: this number was not computed
    bool exceeded = false;              ///< the value is outside
    bool unresolved = false;            ///< a bound lies within the error bar
};

/// The limits in order of their names. `numbers` by the names of solved_board.hpp.
std::vector<LimitVerdict> judge(const std::map<std::string, Limit>& limits,
                                const std::vector<NamedQuantity>& numbers);

/// Numbers known without a solve: mass, length, area, sidecut_radius (the smaller side), and for
/// each limit named so EI@X or GJ@X, X in mm. \throws InputError for a station without width
std::vector<NamedQuantity> plain_numbers(const Board& board, const OutlineFigures& outline,
                                         const MassReport& mass);

bool any_exceeded(const std::vector<LimitVerdict>& verdicts);

} // namespace vrid
