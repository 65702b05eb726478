#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "io/design/read_family.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/match_report.hpp"
#include "solver/design/match.hpp"
#include "solver/design/session.hpp"

namespace vrid {

/// Everything that was read before the first solve.
struct MatchInput {
    const MaterialLibrary& library;
    BoardText source;
    Board board;
    Goal goal;
    std::vector<std::optional<Board>> others; ///< by target: of same_as
    std::string out;
    int threads = 0;
    std::string size = {}; ///< of a family, for messages; empty: the board itself
};

/// Solves the board at other values; what stands in no target is kept for the report.
class Solves {
  public:
    /// Refers to all three.
    Solves(const MatchInput& input, const MatchProblem& problem, Console& console);

    /// As NumbersOf of solver/design/match.hpp.
    NumbersAt operator()(const Eigen::VectorXd& values, bool fresh);

    /// By target: the number of the board of same_as; each board is solved once.
    std::vector<double> wanted_numbers();

    /// Of the start and of values that were solved afresh.
    [[nodiscard]] std::vector<NumberPair> others(const Eigen::VectorXd& values) const;

  private:
    void next_solve(Session& session);
    void warn(const std::vector<std::string>& warnings);

    const MatchInput& input_;
    const MatchProblem& problem_;
    Console& console_;
    std::function<void(const std::string& phase, double share)> progress_;
    std::vector<NumberId> others_;
    std::vector<std::pair<Eigen::VectorXd, std::vector<Quantity>>> kept_;
    Session session_; ///< on the start's mesh, which has the lines of all cases
    std::vector<std::string> warned_;
    int solves_ = 0;
};

/// The answer's [limits] held against it, those on edge.NAME in the goal's condition, or vrid
/// edge's usual one. Numbers that nobody solved for yet cost a solve; of the edge in a condition of
/// its own they are not computed. \param known numbers of the answer
Verdicts held_limits(const Board& answer, std::vector<NamedQuantity> known, const Goal& goal,
                     const Settings& settings);

/// A board matched to a goal, and the text of the answer's file.
struct Matched {
    MatchProblem problem;
    MatchResult result;
    std::vector<NumberPair> others;
    std::string text; ///< of the answer, or of the nearest to one
};

/// The answer's numbers that were solved for, by name.
std::vector<NamedQuantity> known_numbers(const Goal& goal, const Matched& matched);

/// Matches one board. \throws InputError when no free value moves a number
Matched match_board(const MatchInput& input, Console& console);

/// Matches every size of a family, each from the answer of the nearest one that is done, the one
/// nearest the approved board first. Writes a board file for each that is met, and family.json,
/// into the folder input.out. \param goal its file, read again for every size \return the exit
/// status: 1 if a size is not met
int match_family(const MatchInput& input, const Family& family, const std::string& goal, bool json,
                 Console& console);

} // namespace vrid
