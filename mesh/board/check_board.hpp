#pragma once

#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/board/board_fault.hpp"

namespace vrid {

/// What keeps a board from being computed; empty: nothing. Numbers are finite; lengths, widths,
/// thicknesses, weights and constants of materials are positive and |nu12| < sqrt(E1 / E2); ranges
/// and stations rise; names are those of the board's fabrics and materials; a core exactly when a
/// layer is the core; zones, edge, sidewall, feet and contact stations lie on the board. All faults
/// at once; what a fault makes senseless is not looked at. An outline is taken as one of
/// planform.hpp's builders: that its pieces join is looked at, that they do not cross is not.
std::vector<BoardFault> check_board(const Board& board);

bool has_core_layer(const Board& board);

/// Tip spacer, edge, sidewall, stance, masses and rest shape. \param planform null: not known
void check_hardware(const Board& board, const Planform* planform, std::vector<BoardFault>& faults);

/// Constants positive definite, all numbers finite.
void check_material(const std::string& name, const Material& material,
                    std::vector<BoardFault>& faults);

/// A fabric whose plies, resin and lender of strengths are among the materials.
void check_fabric(const std::string& name, const Fabric& fabric,
                  const std::map<std::string, Material>& materials,
                  std::vector<BoardFault>& faults);

} // namespace vrid
