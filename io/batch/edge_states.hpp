#pragma once

#include <filesystem>
#include <vector>

#include "io/report/report.hpp"

namespace vrid {

/// What edge.json and edge.csv of a folder hold; nothing if they are not there.
/// \throws nlohmann::json::exception for a damaged edge.json
std::vector<EdgeState> edge_states(const std::filesystem::path& folder);

} // namespace vrid
