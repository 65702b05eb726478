#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "io/write/sense_json.hpp"
#include "io/write/vtu.hpp"
#include "mesh/board/board.hpp"
#include "solver/design/board_numbers.hpp"

namespace vrid {

/// What a board's numbers do when its design values change: what the writers of `vrid sense` write.
struct Sense {
    Board board;
    std::vector<DesignValue> values; ///< as design_board lists them
    std::vector<bool> shown;         ///< per value: asked for
    BoardNumbers numbers;
    std::vector<std::string> set{}; ///< what --set changed
    std::string condition{};        ///< of the numbers on the edge (condition_of)
};

/// One derivative as people read it.
struct SenseEntry {
    std::size_t number = 0, value = 0; ///< in Sense
    double slope = 0;                  ///< bench unit of the number per unit of the file's value
    double step = 0;                   ///< the workshop's, in the file's unit
    double percent = 0; ///< change of the number in one step; nan for a position or a zero
    /// Where lines part: the slope below and above the value, of which `slope` is the mean.
    std::optional<std::array<double, 2>> kink{};
};

/// Entries of one number for the values shown, the largest change first.
std::vector<SenseEntry> entries_of(const Sense& sense, std::size_t number);

/// A table for each number: value (a core station with its x), step, change in percent and in its
/// unit, at most `rows` rows and none below a thousandth of a percent.
std::string sense_text(const Sense& sense, std::size_t rows);

/// The document sense.json, format 1: program, board, `numbers` (name, value, unit, error),
/// `derivatives` (of, to, x of a core station in mm, value, unit, percent_per_step, step,
/// step_unit; below, above and kink where lines part), warnings; `outline` if it was asked for.
std::string sense_json(const Sense& sense);

/// sense.json, and a .vtu file with the derivative of each number by the core's thickness, over the
/// area: sense.vtu for bench cases and modes, sense-edge.vtu for edge results (meshes of their
/// own). In percent of the number for 0.1 mm of core over one square decimetre. On the outline's
/// points also where to add width, if it was asked for. \throws OutputError
void write_sense(const Sense& sense, const std::string& folder);

/// Where to add width, as sense.json has it under "outline".
FoundOutline found_outline(const Sense& sense);

/// The same as fields on the points of a grid that lie on the outline, not a number elsewhere: in
/// percent of each number for 1 mm of width over 100 mm of the outline. \param grid of the mesh of
/// Sense::numbers.outline, even points a quad
void add_outline_gain(const Sense& sense, QuadGrid& grid);

} // namespace vrid
