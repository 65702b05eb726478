#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/drawn_outline.hpp"

namespace vrid {

/// A drawn outline and what its file leaves open.
struct OutlineFile {
    DrawnOutline outline;
    double rounding = 0; ///< half the last digit of its coordinates [m]
};

/// The text of an outline file: a header x_mm,y_mm or x_mm,y_mm,corner, then one point a row, as
/// csv_text.hpp reads them. The same point several times in a row is one. All problems go to the
/// list, with file:row:column; then nothing is returned. \param half fewer points are enough
std::optional<OutlineFile> read_outline(const std::string& text, const std::string& file,
                                        std::vector<Problem>& problems, bool half = false);

/// What a board's outline file gave.
struct OutlineSource {
    std::string text;            ///< its bytes, for the content hash
    std::optional<DrawnFit> fit; ///< what became of its points
};

/// Reads [planform]. Nothing after a problem. \param folder that outline_csv is relative to
std::optional<Planform> read_planform(TableReader table, const std::string& folder,
                                      OutlineSource& source);

} // namespace vrid
