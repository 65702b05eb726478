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
#include "solver/study.hpp"

namespace vrid {

struct SheetOptions {
    double step = 0.01; ///< of the sanding table [m]
    int boards = 1;     ///< that rolls and resin are reckoned for
    std::string date;   ///< of the board file, for people; may be empty
};

/// Whose heights the press's paper has.
enum class PressLine {
    existing_mould, ///< mould_z_mm under [cure]
    found_mould,    ///< that gives the rest shape: wanted - what the press does
    wanted_shape    ///< the rest shape: without a cure nothing tells what the press does to it
};

struct PressHeights {
    PressLine line = PressLine::existing_mould;
    Profile heights;                     ///< [m]
    std::optional<Profile> change{};     ///< of a found mould: what the press does [m]
    std::vector<std::string> warnings{}; ///< of the solve that found it
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
    std::optional<PressHeights> press; ///< of a board with a mould or a rest shape
};

/// Whether the mould line hangs on a solve: of a board with a cure and a rest shape, and no mould.
bool needs_release(const Board& board);

/// \param tolerances what the spread of the weights is from \param released the case `release`
/// alone, solved; without it a board that needs it has no mould line
ShopSheet shop_sheet(const Board& board, const std::vector<Tolerance>& tolerances,
                     const SheetOptions& options, const StudyResult* released = nullptr);

/// What a piece's files are called, without an ending: "piece-03-nose-ribbon-mirror".
std::string piece_file(const ShopSheet& sheet, std::size_t piece);

/// What a person calls a piece: its layer, "(mirror)" after a mirror image.
std::string piece_name(const CutPiece& piece);

/// A sentence for each layer whose mirror image no piece from its roll is.
std::vector<std::string> mirror_notes(const ShopSheet& sheet);

/// sanding.csv, cutting.csv, rolls.csv, strips.csv, edge.csv, resin.csv, weights.csv, mould.csv
/// or rest_shape.csv: those that there is something for.
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

/// A station of the press's paper [m].
struct PressRow {
    double x = 0, height = 0;
    double change = 0; ///< what the press does there, of a found mould
};
/// Heights every 50 mm along the board, tips included; empty without any.
std::vector<PressRow> press_rows(const ShopSheet& sheet);

/// "mould.csv", or "rest_shape.csv" of a wanted shape alone.
std::string press_file(const PressHeights& press);

/// Angle of the roll as a person turns it: above -90 up to 90 degrees.
double roll_degrees(const CutPiece& piece);

} // namespace vrid
