#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/materials/material_library.hpp"
#include "mesh/board/board.hpp"
#include "mesh/board/drawn_outline.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

/// A board file that need not be on a disk.
struct BoardText {
    std::string text;
    std::string file;   ///< name for messages and Board::file
    std::string folder; ///< what outline_csv and include are relative to; empty: the working one
};

/// The file's text. \throws InputError when it cannot be read
BoardText board_text(const std::string& path);

/// Reads a board file (format 1). \throws InputError with all problems of the file, each with
/// file:line:column.
Board read_board(const std::string& path, const MaterialLibrary& library);
Board read_board_text(const BoardText& source, const MaterialLibrary& library);

/// A board and everything that its layers could have named: materials and fabrics of its file over
/// those of the library.
struct NamedBoard {
    Board board;
    MaterialLibrary named;
    std::vector<Problem> warnings{}; ///< of the reading alone; judged_warnings adds the board's
    std::map<std::string, std::string> places{}; ///< of the file's keys, "file:line:column"
    std::optional<DrawnFit> drawn{};             ///< of an outline given by points
    std::vector<std::string> set{};              ///< "stance.width_mm = 560": set by --set
};
NamedBoard read_named_board(const BoardText& source, const MaterialLibrary& library);

/// All that is accepted of a board as read, but hardly meant: what the reading noted and what
/// io/read/plausibility finds, at its place in the file and in its order.
std::vector<Problem> judged_warnings(const NamedBoard& read);

/// The dotted paths that this board file may set: "core.thickness_mm[3]", "layer.base.angle_deg",
/// "material.e-glass.E1_GPa" (library materials that it uses included), and the scales
/// "core.thickness_scale" and "layer.NAME.areal_weight_scale", which stand in no file. Sorted.
/// \throws InputError as read_board does.
std::vector<std::string> board_key_paths(const BoardText& source, const MaterialLibrary& library);

} // namespace vrid
