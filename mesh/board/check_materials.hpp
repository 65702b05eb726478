#pragma once

#include "mesh/board/board_fault.hpp"

namespace vrid {

/// Constants positive definite, all numbers finite.
void check_material(const std::string& name, const Material& material,
                    std::vector<BoardFault>& faults);

/// A fabric whose plies, resin and lender of strengths are among the materials.
void check_fabric(const std::string& name, const Fabric& fabric,
                  const std::map<std::string, Material>& materials,
                  std::vector<BoardFault>& faults);

} // namespace vrid
