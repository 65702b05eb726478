#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/write/board_figures.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/limits.hpp"
#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"
#include "solver/response/mass.hpp"
#include "solver/response/result.hpp"
#include "solver/strength_study.hpp"
#include "solver/study.hpp"

namespace vrid {

/// Everything that is known of a board after its cases were run: what all writers write.
struct SolvedBoard {
    Board board;
    OutlineFigures outline;
    MassReport mass;
    StudyResult study;
    double seconds_read = 0;
    std::optional<EdgeHold> edge;             ///< a batch's map of the edge on snow
    std::string edge_skipped;                 ///< why there is none though one was asked for
    std::optional<StrengthResult> strength{}; ///< of a batch that asked for it
    std::vector<Problem> warnings{};          ///< of the board file
    std::vector<std::string> set{};           ///< what --set changed
};

/// Every number of a solved board by the name that limits and comparisons use: "mass", the case for
/// a static case's stiffness ("nose-twist"), case and number for others ("free-modes mode 1"),
/// "strength.nose-flex" for the load at which the case first gives,
/// condition and number on the edge ("edge 45 deg 800 N 5 N/mm3 peak").
std::vector<NamedQuantity> numbers_of(const SolvedBoard& solved);

/// "mould.camber": the camber that a mould needs for the rest shape; and of a mould that exists
/// "pressed.NAME": the board that comes out of it. Nothing but of the case `release`.
std::vector<NamedQuantity> mould_numbers(const Board& board, const CaseResult& result);

/// What of the cases was not run, or not reached, and why.
std::vector<std::pair<std::string, std::string>> skipped_of(const StudyResult& study);

/// The board's [limits] held against its numbers, those that need no solve included.
Verdicts verdicts_of(const SolvedBoard& solved);

/// A case's number by its full name, as above.
std::string number_name(const CaseResult& result, const NamedQuantity& number);

/// At what load the deflection lines and fields of a case are written: linear, so any will do.
struct WrittenLoad {
    double factor = 1; ///< on the study's motion, which is at 1 N or 1 rad
    std::string text;  ///< "1 N", "1 deg"; "scaled" for a mode shape, "cooled"
};
WrittenLoad written_load(const CaseResult& result);

/// "centre-flex at 60 mm", "stance-twist bent 60 mm"; of another number than the stiffness
/// "centre-flex at 60 mm.force".
std::string bent_name(const BentCase& bent, const std::string& number = "stiffness");
/// The same of a case that was not reached.
std::string bent_name(const BentMiss& miss);

/// One row a number; empty without bent cases.
std::string bent_text(const StudyResult& study);
/// One row a case and travel: what `--bend` adds to a folder as bend.csv.
std::string bend_csv(const StudyResult& study);

} // namespace vrid
