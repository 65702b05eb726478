#pragma once

#include <string>
#include <vector>

#include "io/write/limits.hpp"
#include "mesh/board/board.hpp"
#include "solver/design/match.hpp"
#include "solver/settings.hpp"
#include "solver/strength_study.hpp"

namespace vrid {

/// A core station that got thinner.
struct ThinnerStation {
    double x = 0;                 ///< [m]
    double before = 0, after = 0; ///< core thickness there [m]
};

/// A layer that lost weight.
struct LighterLayer {
    std::string name;
    double before = 0, after = 0; ///< without resin [kg/m2]
};

/// A static case whose laminate gives at a lower load.
struct EarlierFailure {
    std::string bench_case;
    FailurePlace before, after;
};
/// Whether its loads differ by more than the sum of their two error bars.
bool is_resolved(const EarlierFailure& failure);

/// Where a changed board is weaker than it was.
struct Weaker {
    std::vector<ThinnerStation> stations; ///< by more than 5 %
    std::vector<LighterLayer> layers;
    bool judged = false;                  ///< strengths were looked at, of layers that have them
    std::vector<EarlierFailure> failures; ///< at a load lower by more than 5 %
};

/// \param after the same board with other values: layers and stations correspond
Weaker weaker_places(const Board& before, const Board& after);

/// Adds the static cases that give earlier, at degree 2: bars are wider than those of `vrid
/// strength`, as is enough for a warning. Only cases that a first look finds lower are searched.
/// Nothing where no layer has strengths. \throws SolveError
void add_earlier_failures(const Board& before, const Board& after, const Settings& settings,
                          Weaker& weaker);

/// Lines for a terminal, after an empty one; nothing if nothing got weaker.
std::string weaker_text(const Weaker& weaker);

/// What is known of an answer's strength, for its board file: "no bench case gives at a load lower
/// by more than 5 % (nominal strengths)", "nose-flex gives earlier than before (nominal
/// strengths)", "whether tail-flex gives earlier than before is not resolved (nominal strengths)",
/// "strength was not looked at".
std::string strength_words(const Weaker& weaker);

/// A number that no target names, of the board as it was and of the answer.
struct NumberPair {
    std::string name;
    Quantity before, after;
};

/// What `vrid match` tells.
struct MatchReport {
    const Board& board;
    const Goal& goal;
    const MatchProblem& problem;
    const MatchResult& result;
    std::vector<NumberPair> others;
    std::string written; ///< the answer's board file; empty: none
    double seconds = 0;
    Weaker weaker;     ///< the answer against the board
    Verdicts limits{}; ///< the board's own [limits] held against the answer
};

/// Tables for a terminal: targets before and after with their windows, values that changed, limits
/// that hold, [limits] of the board that the answer breaks, the other numbers; where there is no
/// answer, what stands in the way.
std::string match_text(const MatchReport& report);

/// The same as one JSON document (format 1). No times but "seconds" differ between two runs.
std::string match_json(const MatchReport& report);

/// What holds or stands in the way, in words: "core.thickness_mm[3] (x = -567.5) at its max of 9.5
/// mm".
std::string limit_words(const MatchReport& report, const ActiveLimit& limit);
std::string obstacle_words(const MatchReport& report, const Obstacle& obstacle);

/// What told_miss says of a number, with its unit: "1.23 %", of a position "4.50 mm", "0.500 deg".
std::string miss_text(const NumberId& number, double miss);

/// "core.thickness_mm[3] (x = -567.5)", "layer.ribbon.angle_deg".
std::string value_name(const MatchValue& value);

/// A design value in the unit of its path: "6.95".
std::string file_value(const MatchValue& value, double si);

} // namespace vrid
