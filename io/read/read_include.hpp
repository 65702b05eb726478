#pragma once

#include <string>
#include <vector>

#include "io/read/read_layers.hpp"

namespace vrid {

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

} // namespace vrid
