#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace vrid {

/// 128-bit FNV-1a of the texts, each preceded by its length, as 32 hexadecimal digits. The same on
/// every machine. It tells changed files from unchanged ones; it is no cryptographic hash.
/// Fowler, Noll, Vo, Eastlake (2019), The FNV Non-Cryptographic Hash Algorithm.
std::string content_hash(const std::vector<std::string_view>& texts);

} // namespace vrid
