#pragma once

#include <map>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/design/tolerance.hpp"
#include "solver/shop/board_regions.hpp"

namespace vrid {

/// What goes onto the board in one step.
struct LayUpStep {
    std::string name;                     ///< "base and edge", "nose ribbon", "core and sidewall"
    std::map<std::string, double> masses; ///< by material, as in board_mass [kg]
    double mass = 0;                      ///< of the step [kg]
    double sum = 0;                       ///< of the board so far [kg]
    double spread = 0; ///< of the sum: one standard deviation; 0 until spread_of_steps [kg]
};

/// The board's mass step by step, cured: layers upwards, a layer and its mirror image in one, then
/// glue lines and inserts of [mass_only]. The last sum is the board's mass. \param parts
/// board_parts of this board, or of one that differs in design values only
std::vector<LayUpStep> lay_up_steps(const Board& board, const std::vector<BoardPart>& parts);

/// The spread of every sum: independent values, to first order.
void add_spread(std::vector<LayUpStep>& steps, const Board& board,
                const std::vector<BoardPart>& parts, const std::vector<Tolerance>& tolerances);

/// Mass of one part by material [kg].
std::map<std::string, double> part_masses(const Board& board, const BoardPart& part);

/// Mass of fibres, or of the sheet, before resin [kg/m2]; a measured ply counts whole.
double dry_areal_weight(const Board& board, const Layer& layer);

/// Mass of the resin that wets a layer; 0 of sheets and measured plies [kg/m2].
double resin_areal_weight(const Board& board, const Layer& layer);

} // namespace vrid
