#pragma once

#include <map>

#include "io/write/board_figures.hpp"
#include "io/write/fields.hpp"
#include "io/write/number.hpp"
#include "mesh/board/board.hpp"
#include "solver/response/quantity.hpp"

namespace vrid {

/// One of a board's [limits] held against its number.
struct LimitVerdict {
    std::string name;
    Limit limit;                   ///< bench units, as the board file writes them
    std::optional<Measured> found; ///< nothing: this number was not computed
    bool exceeded = false;         ///< the value is outside
    bool unresolved = false;       ///< a bound lies within the error bar
};

/// In documents by name {"min", "max", "value", "unit", "error", "exceeded", "resolved"}; absent
/// ones are left out.
using Verdicts = ByName<LimitVerdict>;
template <class Each, Of<LimitVerdict> Given> void fields(Each& each, Given& part) {
    Later<bool> exceeded{part.exceeded};
    Later<bool> resolved{!part.unresolved};
    each("min", part.limit.min);
    each("max", part.limit.max);
    each("found", part.found);
    if (part.found) {
        each("exceeded", exceeded);
        each("resolved", resolved);
    }
    if constexpr (!std::is_const_v<Given>) {
        part.exceeded = exceeded;
        part.unresolved = !resolved;
    }
}
/// A value that is null is infinite: the radius of a straight side.
void check_part(LimitVerdict& verdict);

/// The limits in order of their names. `numbers` by the names of solved_board.hpp.
Verdicts judge(const std::map<std::string, Limit>& limits,
               const std::vector<NamedQuantity>& numbers);

/// Numbers known without a solve: mass, length, area, sidecut_radius (the smaller side),
/// balance_point.x and .y, and for each limit named so EI@X, GJ@X or thickness@X, X in mm, where
/// the board has a width.
std::vector<NamedQuantity> plain_numbers(const Board& board, const OutlineFigures& outline,
                                         const MassReport& mass);

bool any_exceeded(const Verdicts& verdicts);
/// A value and its bar as text; one outside its limit reads so, too, with as many digits as it
/// takes.
RoundedNumber rounded(const BenchQuantity& found, const LimitVerdict& verdict);
/// Those whose value is outside.
Verdicts exceeded(const Verdicts& verdicts);

} // namespace vrid
