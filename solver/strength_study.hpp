#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/strength/weakest.hpp"
#include "solver/study.hpp"

namespace vrid {

/// What to find of a board's strength, and how.
struct StrengthOptions : Settings {
    std::vector<std::string> cases = {}; ///< static bench cases; empty: all that the board allows
    Criterion criterion = Criterion::tsai_hill;
    /// "release" or "cold": with the stress of the board cooled so; empty: with none before any
    /// load.
    std::string cooled = {};
    ResidualAt residual = nullptr;           ///< another stress before any load; null: none
    std::optional<double> at = std::nullopt; ///< also the index at this load [N, N m]
    SharedPrepared prepared = nullptr;       ///< the mesh to run on; null: own
    bool bend_as_far = false;                ///< as StudyOptions
};

/// Share by which a disc is made smaller and larger for what its size does to a number.
constexpr double beside_disc = 0.05;

/// A place at which the laminate gives.
struct FailurePlace {
    Quantity load;   ///< [N, N m]
    Quantity travel; ///< of the case's loaded line [m, rad]
    Weakness place;  ///< its factor as `load`
    StackKey key;    ///< of the layers there
    Disc disc;       ///< over which its strains are means; its `stack` is the search's own
    std::array<Disc, 2> beside; ///< the same, smaller and larger by beside_disc
    std::string layer;
    bool at_clamp = false;   ///< its disc touches a held or loaded line
    bool at_outline = false; ///< within the disc's diameter of the outline: peel is not computed
    bool resolved = true;    ///< the bar is below 5 %
    bool both_sides = false; ///< also at -y
};

/// What a case's load does to the index.
struct IndexAtLoad {
    double load = 0;  ///< [N, N m]
    double index = 0; ///< 1 at failure
    int sign = 1;
};

/// The highest index of a board bent far, at its true state.
struct BentIndex {
    std::string bench_case;
    double travel = 0; ///< [m]
    Quantity index;    ///< 1 at failure
    Weakness place;
    std::string layer;
    bool at_clamp = false, at_outline = false;
    bool resolved = true; ///< the bar of the stress is below 5 %
};

/// What the strength of one case is.
struct CaseStrength {
    std::string name;
    std::string skipped;      ///< why it was not run
    bool before_load = false; ///< the residual stress alone is over a strength
    std::optional<FailurePlace>
        first;                        ///< the worse direction of the load; nothing: no layer judged
    std::optional<FailurePlace> away; ///< the first farther than h from held and loaded lines
    std::optional<FailurePlace> breaks; ///< the first after which the board is broken
    std::vector<FailurePlace> next;     ///< up to three of other layer or mode
    bool kink = false; ///< next is within 3 % of the first: the number has a kink there
    std::array<double, 2> by_sign{}; ///< load of the first with and against the case [N, N m]
    double slope = 0;                ///< steepest at the first failure
    std::optional<IndexAtLoad> at;
};

struct StrengthResult {
    std::vector<CaseStrength> cases;
    std::vector<BentIndex> bent;         ///< of the travels asked for (Settings::bend), by case
    std::vector<BentMiss> not_bent;      ///< of those travels, what the board cannot be bent to
    std::vector<std::string> not_judged; ///< layers without strengths
    std::vector<std::string> taken;      ///< fibre layers whose S12 stands for S13 and S23
    bool residual = false;
    std::string cooled; ///< as asked for
    Criterion criterion = Criterion::tsai_hill;
    std::vector<std::string> warnings;
    StudyResult study; ///< with its models kept
};

/// A bar above this is printed as not resolved.
constexpr double resolved_bar = 0.05;

/// Mesh and order of elimination: as a study's, with quads no larger than h at the clamps' corners.
/// \param warnings told where that could not be meshed
SharedPrepared prepare_strength(const Board& board, const StrengthOptions& options,
                                std::vector<std::string>* warnings = nullptr);

/// Runs the cases at two degrees and finds where each gives first. \throws as run_study
StrengthResult run_strength(const Board& board, const StrengthOptions& options);

/// The numbers of limits and comparisons: "strength.CASE", ".breaks", ".travel".
std::vector<NamedQuantity> strength_numbers(const StrengthResult& result);

} // namespace vrid
