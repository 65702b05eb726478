#pragma once

#include <string>

namespace vrid::measure {

/// Where the parts find what they run.
struct Means {
    std::string vrid;       ///< the program
    std::string sources;    ///< vrid's own folder
    std::string general_fe; ///< our side of the comparison with a general library
    std::string python;     ///< that has DOLFINx, if any has; empty: none
    std::string folder;     ///< for files of its own
    [[nodiscard]] std::string example(const std::string& name) const {
        return sources + "/examples/" + name + "/board.toml";
    }
};

} // namespace vrid::measure
