#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/write/json_parts.hpp"

namespace vrid {

/// What was run, in words: "mesh" and "560 elements of degree 3, 25790 unknowns".
using Facts = std::vector<std::pair<std::string, std::string>>;

/// Of result.json and edge.json, each null if it is not there. \throws Json::exception
Facts facts_of(const Json& result, const Json& edge);

} // namespace vrid
