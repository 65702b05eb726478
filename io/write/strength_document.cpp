#include "io/write/strength_document.hpp"

#include <algorithm>

namespace vrid {
namespace {

constexpr std::size_t most_cells = 100000; // of a picture

} // namespace

void check_part(const FoundSpot& spot) {
    must_hold(std::isfinite(spot.x_mm + spot.y_mm + spot.z_mm + spot.ply_deg),
              "a place is not told in numbers");
}

void check_part(const StressedPart& part) {
    for (const auto& [name, count] : {std::pair("1", 2), std::pair("2", 2), std::pair("12", 2),
                                      std::pair("13", 3), std::pair("23", 3)}) {
        const auto found = part.stress_MPa.find(name);
        must_hold(found != part.stress_MPa.end() &&
                      found->second.size() == static_cast<std::size_t>(count),
                  "a stress has not the values it must have");
    }
    for (const auto& [name, strength] : part.strengths_MPa.value_or(Named<double>{})) {
        must_hold(std::isfinite(strength), "'" + name + "' is no strength");
    }
}

void check_part(const StressedPly& ply) {
    must_hold(ply.z_mm.second > ply.z_mm.first, "a ply has no thickness");
    must_hold(std::isfinite(ply.ply_deg), "a ply has no angle");
    must_hold(!ply.parts.empty(), "a ply is of nothing");
}

void check_part(const StrengthGrid& grid) {
    const std::vector<double>& x = grid.x_mm;
    must_hold(x.size() > 1 && x.size() < most_cells && grid.right_mm.size() == x.size() &&
                  grid.left_mm.size() == x.size(),
              "the grid's lists are not of one length");
    for (std::size_t i = 1; i < x.size(); ++i) {
        must_hold(x[i] > x[i - 1], "the grid's stations do not rise");
    }
}

void check_part(const StrengthFindings& found) {
    const std::size_t columns = found.grid ? found.grid->x_mm.size() - 1 : 0;
    for (const FoundCaseStrength& one : found.strength) {
        const auto rows = one.lowest_load.value_or(std::vector<std::vector<double>>{});
        must_hold(
            rows.size() < most_cells &&
                std::ranges::all_of(rows, [&](const auto& row) { return row.size() == columns; }),
            "the lowest loads do not fit the grid");
    }
}

double StressedPart::strength(const std::string& key) const {
    const auto strengths = strengths_MPa.value_or(Named<double>{});
    const auto found = strengths.find(key);
    return found == strengths.end() ? 0 : found->second;
}

std::vector<FoundCaseStrength> StrengthFindings::judged() const {
    std::vector<FoundCaseStrength> all;
    std::ranges::copy_if(strength, std::back_inserter(all),
                         [](const FoundCaseStrength& one) { return one.first.has_value(); });
    return all;
}

std::vector<std::string> StrengthFindings::not_judged() const {
    std::vector<std::string> names;
    for (const FoundCaseStrength& one : judged()) {
        names = one.not_judged.value_or(names);
    }
    for (const FoundEdgeStrength& one : edge.value_or(std::vector<FoundEdgeStrength>{})) {
        names = one.not_judged.value_or(names);
    }
    return names;
}

StrengthFindings read_strength_json(const std::string& text, const std::string& file) {
    return read_whole<StrengthFindings>(text, file, "strength");
}

} // namespace vrid
