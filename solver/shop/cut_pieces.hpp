#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/shop/board_regions.hpp"

namespace vrid {

/// A piece to cut, net: as it lies on the board, without an allowance for trimming.
struct CutPiece {
    std::string layer;   ///< its name, or "core", "sidewall", "tip spacer"
    std::string made_of; ///< fabric or material; the woods of a core with + between
    PartKind of = PartKind::layer;
    bool mirror_image = false;
    bool on_roll = true;      ///< false: a mirror image that no piece from its roll is
    bool turned_over = false; ///< roll turned over about its 0 direction
    bool fabric = false;
    double roll_angle = 0; ///< of the roll's 0 direction, against +x of the board [rad]
    Region shape;          ///< where it lies on the board
    double area = 0;       ///< [m2]
    double length = 0;     ///< of the smallest rectangle along the roll's direction [m]
    double width = 0;      ///< of that rectangle, across the roll [m]
    double dry_mass = 0;   ///< before resin [kg]
    double resin_mass = 0; ///< that wets it [kg]
};

/// Whether the mirror image of a cloth, every ply at the opposite angle, is the cloth at the
/// opposite angle: its plies run at 0 and 90 degrees only. Of another it is not, nor turned over:
/// its plies then lie in the opposite order.
bool mirror_lies_on_roll(const Fabric& fabric);

/// All pieces upwards, each connected. The core is one blank; metal edges are no pieces.
std::vector<CutPiece> cut_pieces(const Board& board, const std::vector<BoardPart>& parts);

/// One fabric's pieces laid out on its roll.
struct RollUse {
    std::string fabric;
    double roll_width = 0; ///< 0: not told [m]
    double area = 0;       ///< net [m2]
    double length = 0;     ///< of roll; 0 if its width is not told [m]
    double waste = 0;      ///< share of that length
    int joined = 0;        ///< pieces wider than the roll, cut as strips side by side
};

/// Rectangles in rows across the roll, longest first; each row as long as its first piece. Pieces
/// keep their direction and are not turned, so that a tighter layout may be found by hand.
std::vector<RollUse> roll_uses(const Board& board, const std::vector<CutPiece>& pieces, int boards);

} // namespace vrid
