#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

/// A drawn outline as its file lists it.
struct DrawnOutline {
    std::vector<Eigen::Vector2d> points; ///< [m], the first not repeated at the end
    std::vector<bool> corner;            ///< one per point
};

/// The text of an outline file: a header x_mm,y_mm or x_mm,y_mm,corner, then one point a row. All
/// problems go to the list, with file:row:column; then nothing is returned.
std::optional<DrawnOutline> read_outline(const std::string& text, const std::string& file,
                                         std::vector<Problem>& problems);

/// Reads [planform]. Nothing after a problem. \param folder that outline_csv is relative to
/// \param outline_text receives the bytes of the outline file, for the content hash
std::optional<Planform> read_planform(TableReader table, const std::string& folder,
                                      std::string& outline_text);

} // namespace vrid
