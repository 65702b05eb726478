#pragma once

#include <filesystem>
#include <string>

namespace vrid {

/// A whole file's bytes; empty if it cannot be read.
std::string file_bytes(const std::filesystem::path& path);

} // namespace vrid
