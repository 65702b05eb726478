#pragma once

#include <filesystem>
#include <vector>

#include "io/report/report.hpp"

namespace vrid {

/// What edge.json and edge.csv of a folder hold; nothing if they are not there. \param compared of
/// the second board (edge-compared.csv) \throws nlohmann::json::exception for a damaged edge.json
std::vector<EdgeState> edge_states(const std::filesystem::path& folder, bool compared = false);

} // namespace vrid
