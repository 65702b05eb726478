#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/read/read_board.hpp"
#include "io/write/staged_files.hpp"
#include "mesh/board/profile.hpp"
#include "solver/design/tolerance.hpp"
#include "solver/shop/core_blank.hpp"
#include "solver/shop/cut_pieces.hpp"
#include "solver/shop/lay_up_weights.hpp"

namespace vrid {

struct SheetOptions {
    double step = 0.01; ///< of the sanding table [m]
    int boards = 1;     ///< that rolls and resin are reckoned for
    std::string date;   ///< of the board file, for people; may be empty
};

/// What the people at sander, cutting table and press need of a board.
struct ShopSheet {
    Board board;
    SheetOptions options;
    std::optional<CoreBlank> core;
    std::vector<CutPiece> pieces; ///< upwards
    std::vector<RollUse> rolls;   ///< for all boards
    std::vector<EdgeRun> edges;
    std::vector<LayUpStep> steps;
    std::optional<Profile> mould; ///< heights of the mould, when they are known [m]
};

/// \param tolerances what the spread of the weights is from
ShopSheet shop_sheet(const Board& board, const std::vector<Tolerance>& tolerances,
                     const SheetOptions& options);

/// What a piece's files are called, without an ending: "piece-03-nose-ribbon-mirror".
std::string piece_file(const ShopSheet& sheet, std::size_t piece);

/// What a person calls a piece: its layer, "(mirror)" after a mirror image.
std::string piece_name(const CutPiece& piece);

/// sanding.csv, cutting.csv, rolls.csv, strips.csv, edge.csv, resin.csv, weights.csv, mould.csv:
/// those that there is something for.
void add_tables(const ShopSheet& sheet, StagedFiles& files);

/// outline.svg and .csv, and the same of each piece: true to scale, 1 user unit = 1 mm, x to the
/// nose, y to the left; corners within 0.002 mm of the piece's border.
void add_drawings(const ShopSheet& sheet, StagedFiles& files);

/// Everything on A4 pages, with boxes for what is measured.
std::string sheet_html(const ShopSheet& sheet);

/// The main figures for a terminal.
std::string sheet_text(const ShopSheet& sheet);

/// Resin by material, layer by layer, and the glue lines; of one board [kg].
struct ResinRow {
    std::string layer, resin;
    double mass = 0;
};
std::vector<ResinRow> resin_rows(const ShopSheet& sheet);

/// The mould's heights every 50 mm along the board, tips included: [x, height] [m].
std::vector<std::array<double, 2>> mould_rows(const ShopSheet& sheet);

/// Angle of the roll as a person turns it: above -90 up to 90 degrees.
double roll_degrees(const CutPiece& piece);

} // namespace vrid
