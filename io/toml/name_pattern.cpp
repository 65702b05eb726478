#include "io/toml/name_pattern.hpp"

#include <fnmatch.h>

namespace vrid {

bool fits_pattern(const std::string& name, std::string_view pattern, std::string_view wild) {
    std::string plain; // "thickness_mm[3]" names a station, not a class of letters
    for (const char c : pattern) {
        const bool special = std::string_view("*?[]\\").find(c) != std::string_view::npos;
        plain += special && wild.find(c) == std::string_view::npos ? "\\" : "";
        plain += c;
    }
    return fnmatch(plain.c_str(), name.c_str(), 0) == 0;
}

} // namespace vrid
