#pragma once

#include <string>
#include <vector>

#include "io/design/design_values.hpp"
#include "io/read/read_board.hpp"

namespace vrid {

/// What stands in a board file for a person to change: a number, or the name of a material.
struct FileValue {
    std::string path;        ///< as --set takes it: "edge.x_mm[0]", "layer.ribbon.zone.width_mm"
    std::string key;         ///< as `accepted` and units know it: "edge.x_mm"
    std::string group, part; ///< "layer", "ribbon"; "edge", ""
    std::variant<double, std::string> value; ///< as the file writes it
};

/// Numbers and materials of outline, core strips, zones, edge, sidewall, tip spacer, stance and
/// mass_only, in the file's order. Stations and corners are none.
/// \throws InputError for a syntax error
std::vector<FileValue> file_values(const BoardText& source);

/// The text with some of these set, the rest as it is; what it then says is not judged.
/// \throws InputError for a path that is none of these, and for a text in place of a number
std::string with_file_values(const BoardText& source, const std::vector<Change>& changes);

} // namespace vrid
