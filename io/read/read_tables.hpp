#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"
#include "mesh/board/drawn_outline.hpp"

namespace vrid {

/// What the names of a board file may stand for.
struct Stock {
    std::map<std::string, Material> materials;
    std::map<std::string, Fabric> fabrics;
    /// Of the file's materials without an expansion, where they stand.
    std::map<std::string, std::string> no_expansion{};
};

/// Reads the [[layer]] tables.
std::vector<Layer> read_layers(TableReader& root, const Stock& stock);

/// Reads the zone or the zones of a layer's table; empty: everywhere.
std::vector<Zone> read_zones(TableReader& table);

/// Reads [core].
Core read_core(TableReader table, const Stock& stock);

/// Reads [cure].
Cure read_cure(TableReader table);

/// With a cure every material of the board needs its expansion: a problem for each that has none.
/// Warns of a resin that has both a shrink and a high stress-free temperature, and of moisture that
/// nothing swells with.
void check_expansions(const Board& board, TableReader& root, const Stock& stock);

/// Reads [tip_spacer], [edge], [sidewall], [stance], [mass_only] and [rest_shape] into the board.
void read_hardware(Board& board, TableReader& root, const Stock& stock);

/// Takes the materials and fabrics of a file's own tables into the stock, over those that are
/// there.
void read_own_stock(TableReader& root, Stock& stock);

/// Takes those of the file that `include` names, and of what that includes, into the stock: later
/// ones go over earlier ones, the including file's over the included. Paths are relative to the
/// file that names them. All problems go to the root's reading, a loop too.
/// \param file the including file \param folder that its paths are relative to
/// \return the texts of all included files, for the content hash
std::vector<std::string> read_included(TableReader& root, const std::string& file,
                                       const std::string& folder, Stock& stock);

/// Reads [limits] of a board file or a suite, if there is one, into `limits` by the number's name.
/// A limit is in the bench unit of its number: the keys carry none. Problems go to the reading.
void read_limits(std::map<std::string, Limit>& limits, TableReader& root);

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
