#pragma once

#include <string>
#include <vector>

#include "io/write/fields.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// What a document says of its board.
struct BoardEntry {
    std::string name, hash;
    Some<std::vector<std::string>> set{}; ///< what --set changed
    Some<std::string> file{};             ///< without folders
    Some<std::string> file_date{};        ///< the day of its last change, "2026-11-28", UTC
    /// "board.toml, last changed on 2026-11-28", as far as it is told.
    [[nodiscard]] std::string file_words() const;
};

VRID_FIELDS(BoardEntry, 0, name, hash, set, file, file_date)

/// What it says of the mesh.
struct MeshEntry {
    Later<std::size_t> elements;
    Later<int> degree, unknowns;
};
VRID_FIELDS(MeshEntry, 0, elements, degree, unknowns)

/// `file` and `file_date` of a board read from a file, if it is still there.
BoardEntry board_file_entry(const Board& board, const std::vector<std::string>& set);

} // namespace vrid
