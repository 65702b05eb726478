#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/write/strength_document.hpp"

namespace vrid {

/// A case and the steepest slope at its first failure.
using CaseSlopes = std::vector<std::pair<std::string, double>>;

/// The cases above slope_limit in one sentence; empty without one.
std::string steep_words(const CaseSlopes& slopes);

/// What a reader of a strength must look at beside its limits: its warnings, what is over its
/// strength before any load, where linear theory ends, the edge that found no equilibrium.
std::vector<std::string> strength_doubts(const StrengthFindings& found);

} // namespace vrid
