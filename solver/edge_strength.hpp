#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/edge.hpp"
#include "solver/strength/weakest.hpp"

namespace vrid {

/// What to find of a board's strength on its edge, and how.
struct EdgeStrengthOptions : Settings {
    Criterion criterion = Criterion::tsai_hill;
    std::string cooled = {}; ///< as StrengthOptions
    bool to_failure = false; ///< also the load at which the index is 1
};

/// The largest index by some way, and its place.
struct IndexPlace {
    Quantity index; ///< 1 at failure; with Tsai-Hill it goes with the square of the stress
    Weakness place; ///< its factor on all the stress, residual stress too
    std::string layer;
    bool at_clamp = false;   ///< its disc touches a foot
    bool at_outline = false; ///< within the disc's diameter of the outline: peel is not computed
    bool resolved = true;    ///< the bar of the stress is below 5 %
};

/// The places of one state, the highest index first.
struct IndexPlaces {
    std::optional<IndexPlace> first;  ///< nothing: no layer judged
    std::optional<IndexPlace> away;   ///< farther than h from the feet and from the pressed edge
    std::optional<IndexPlace> breaks; ///< after which the board would be broken
    std::vector<IndexPlace> next;     ///< up to three of other layer or mode
    double slope = 0;                 ///< the board's steepest
};

/// Where raising the load ends.
struct EdgeFailure {
    Quantity load;       ///< on both feet, at which the index is 1 [N]
    std::string why_not; ///< it does not get there: `load` is then the largest with a state
    IndexPlaces places;  ///< at `load`
};

/// One edge condition. The contact is no multiple of the load: indices are those of its own state.
struct EdgeStrength {
    EdgeCondition condition;
    std::string no_equilibrium;         ///< why; empty when the board comes to rest
    IndexPlaces places;                 ///< at the condition's load
    std::optional<EdgeFailure> failure; ///< if asked for
    std::optional<EdgeFailure> broken;  ///< the same for `breaks`, if any layer can break
};

struct EdgeStrengthResult {
    std::vector<EdgeStrength> conditions;
    std::vector<std::string> not_judged, taken; ///< as StrengthResult
    bool before_load = false;                   ///< the residual stress alone is over a strength
    Criterion criterion = Criterion::tsai_hill;
    std::string cooled;
    bool bent = false;
    std::vector<std::string> warnings;
};

/// The largest load that `to_failure` tries [N].
constexpr double largest_edge_load = 1e5;

/// Every condition at two degrees on a mesh of its own, finer beside the feet.
/// \throws as run_edge; InputError where `cooled` is asked of a board without [cure]
EdgeStrengthResult run_edge_strength(const Board& board,
                                     const std::vector<EdgeCondition>& conditions,
                                     const EdgeStrengthOptions& options);

} // namespace vrid
