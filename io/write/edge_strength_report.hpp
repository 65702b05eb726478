#pragma once

#include <string>

#include "solver/edge_strength.hpp"

namespace vrid {

/// Tables for a terminal, with the notes below them; without the caution.
std::string edge_strength_text(const EdgeStrengthResult& result);

} // namespace vrid
