#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/report/report.hpp"
#include "io/write/strength_document.hpp"

namespace vrid {

/// A section of the page with the pictures below for every case; empty without a case. `id` is
/// unique on the page. \param outline of the board [mm]; empty: drawn along the cells
std::string strength_section(const StrengthFindings& strength,
                             const std::vector<std::pair<double, double>>& outline,
                             const std::string& id);
/// The conditions on the edge in a table; empty without one.
std::string edge_strength_table(const std::vector<FoundEdgeStrength>& conditions);
/// The planform by the lowest load at which a place gives, the weakest places marked.
std::string strength_map(const StrengthFindings& strength, const FoundCaseStrength& one,
                         const std::vector<std::pair<double, double>>& outline,
                         const std::string& id);
/// Stress through the thickness beside the strengths, and its table.
std::string stress_picture(const FoundCaseStrength& one, const std::string& id);

/// The largest share of a strength that a component of a part takes, and by which stress.
struct StrengthUse {
    double share = 0, stress = 0, strength = 0; ///< strength 0: not judged
};
StrengthUse strength_use(const StressedPart& part, const std::string& component);
/// What a part bears in a component: {below zero, above zero}, both positive; nothing: not judged.
std::optional<std::array<double, 2>> borne(const StressedPart& part, const std::string& component);

/// The page with where the layups give first. \param strength one a row of the report, without
/// cases where there is nothing to show; shorter lists leave the rest without
std::string report_html(const Report& report, const std::vector<StrengthFindings>& strength);

} // namespace vrid
