#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/mesh_motion.hpp"
#include "solver/design/design_board.hpp"

namespace vrid {

/// A board with a value that moves lines changed a little either way. Where a board ends to exist
/// one of the two is the board itself.
struct ShapeChange {
    LineValue line;
    std::shared_ptr<const Board> below, above;
    double width = 0; ///< of the value, from below to above, SI
    double low = 0;   ///< of `below` against the board: at most 0
};

/// \throws InputError when no board exists on either side
ShapeChange shape_change(const Board& board, const LineValue& line, double step);

/// The value as the board has it. \throws std::logic_error if it has none of this name
double line_value(const Board& board, const DesignId& id);
/// A copy of the board with it set. \throws InputError when no such board exists
Board with_line_value(const Board& board, const LineValue& line, double value);

/// The board `from`, boards of values in between that move lines by a millimetre at most each (a
/// fullness by 0.02), and `to`. Empty when the two have other such values, differ in lines that no
/// value moves, are too far apart, or no board exists in between.
std::vector<Board> boards_between(const Board& from, const Board& to);

/// Stations across that a board's cases need.
using StationsOf = std::function<std::vector<double>(const Board&)>;

/// The mesh lines of a board that mean something: those of its section and of its cases.
MeshLines meant_lines(const Board& board, const StationsOf& stations);

/// How a mesh moves with a change, per unit of the value. \param motion of the mesh, by meant_lines
MeshVelocity velocity_of(const MeshMotion& motion, const ShapeChange& change,
                         const StationsOf& stations);

/// Whether lines that lie on each other part when the value changes, and the section jumps there:
/// the derivative is then another one on either side.
bool has_kink(const Board& board, const LineValue& line, const StationsOf& stations);

/// How far beside a kink its two derivatives are taken, SI.
constexpr double beside_kink = 2e-4;

} // namespace vrid
