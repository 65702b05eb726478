#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/design/design_kinds.hpp"

namespace vrid {

/// The key that tells unit and range of a design value: "core.thickness_mm" for
/// "core.thickness_mm[3]", "layer.angle_deg" for "layer.base.angle_deg", "layer.zone.x_mm" for
/// "layer.base.zone.x_mm[0]" and "layer.base.zones[2].x_mm[0]".
std::string key_of_path(const std::string& path);

/// Whether a pattern means a path: the path itself, its key ("core.thickness_mm": all stations), or
/// a text with * for any letters ("layer.*.angle_deg", "material.*.E1_GPa").
bool covers(const std::string& pattern, const std::string& path);
/// How much a pattern says: of two that cover a path the one with more letters is meant, the path
/// itself before all.
std::size_t precision(const std::string& pattern);
std::vector<std::string> covered_paths(const std::string& pattern,
                                       const std::vector<std::string>& paths);

/// The design values of the board on whose kind its numbers depend (solver/design/design_kinds):
/// not fabric names, strengths and expansions. Sorted by table and name, stations by their count.
std::vector<std::string> number_paths(const Board& board);

/// A design value of a board by its path.
struct DesignFound {
    DesignId id;
    double value = 0; ///< now, SI; scales are 1
};
/// Nothing for a path that is none of number_paths.
std::optional<DesignFound> find_design(const Board& board, const std::string& path);

} // namespace vrid
