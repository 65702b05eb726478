#pragma once

#include <filesystem>
#include <string>

#include "io/report/report.hpp"
#include "io/write/strength_document.hpp"

namespace vrid {

/// The documents of a folder of results, of one board: those that are there.
struct FolderResults {
    std::optional<FoundResult> result{};
    std::optional<StrengthFindings> strength{};
    std::optional<FoundEdge> edge{};
    bool compared = false; ///< `edge` is that of the second board
    /// Of the first document. There must be one.
    [[nodiscard]] const BoardEntry& board() const;
    [[nodiscard]] std::string program() const;
};

/// result.json, strength.json, edge.json. \throws InputError for damaged ones
FolderResults read_folder(const std::filesystem::path& folder);

/// What was run, in words: "mesh" and "560 elements of degree 3, 25790 unknowns".
using Facts = std::vector<std::pair<std::string, std::string>>;
Facts facts_of(const FolderResults& found);

/// The board out of the press; nothing without the case `release`.
CooledDrawing cooled_drawing(const FoundResult& result);

/// The conditions of an edge, with what its edge.csv holds; nothing of that if it is not there.
std::vector<EdgeState> edge_states(const FoundEdge& edge, const std::filesystem::path& curves);

/// What the edge says of its second board, which must be there.
FolderResults compared_of(const FoundEdge& edge);

/// The numbers of a CSV text with a title row; cells that are none become nan. `file` names it in
/// errors. \throws InputError for a row with more or fewer cells than the title
StationTable number_table(const std::string& text, const std::string& file);

} // namespace vrid
