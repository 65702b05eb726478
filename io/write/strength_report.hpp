#pragma once

#include <optional>
#include <string>

#include "io/write/limits.hpp"
#include "mesh/board/board.hpp"
#include "solver/edge_strength.hpp"
#include "solver/strength_study.hpp"

namespace vrid {

constexpr std::size_t strength_line = 100; ///< letters in a line of text

/// What a reader of any strength must know: first and last line of every output.
const std::string& strength_caution();

/// "crack across": how people read a mode.
std::string mode_name(FailureMode mode);

// Cells of tables: "-520, 12" (x, y in mm; "-520, +-12" on both sides), "lower glass, 45" (in deg),
// "crack across, at the clamp".
std::string where_cell(const Weakness& place, bool both_sides = false);
std::string ply_cell(const std::string& layer, const Weakness& place);
std::string mode_cell(const Weakness& place, bool at_clamp, bool at_outline);

/// "N" or "N m".
std::string load_unit(const FailurePlace& place);

struct StrengthView; // solver/strength_view

/// A board's strength: what the writers write.
struct BoardStrength {
    Board board;
    StrengthResult result;
    std::optional<EdgeStrengthResult> edge{}; ///< with --edge; `result` may be without cases then
    std::vector<Problem> warnings{};          ///< of the board file
};

/// The parts of the strength that its edge conditions share with its cases, for one without cases.
StrengthResult without_cases(const EdgeStrengthResult& edge);

/// The board's [limits] named strength.CASE, .breaks or .travel, held against the cases that were
/// run; none where the board has stress before the load, as limits are on loads without.
Verdicts strength_verdicts(const BoardStrength& strength);

/// Tables for a terminal, the caution above and below.
std::string strength_text(const BoardStrength& strength);

/// The document strength.json (strength_document.hpp). \param view without a grid: none
std::string strength_json(const BoardStrength& strength, const StrengthView& view);

/// Tables for a terminal, with the notes below them; without the caution.
std::string edge_strength_text(const EdgeStrengthResult& result);

} // namespace vrid
