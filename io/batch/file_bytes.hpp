#pragma once

#include <filesystem>
#include <string>

#include "io/write/json_parts.hpp"

namespace vrid {

/// A result file's bytes; empty if there is none or it cannot be opened. \throws InputError for a
/// pipe, a device, a folder, or more than 64 MiB
std::string file_bytes(const std::filesystem::path& path);
/// What it holds; discarded if that is no JSON. \throws InputError as file_bytes
Json parsed(const std::filesystem::path& path);

} // namespace vrid
