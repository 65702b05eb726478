#pragma once

#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/cooling/mesh_place.hpp"
#include "solver/response/quantity.hpp"

namespace vrid {

/// A number of a changed shape: a sum of the board's rises w at some points, such that no rigid
/// motion counts.
struct ShapeNumber {
    std::string name; ///< of cooled_names, or "concavity" with its station
    std::optional<double> station;
    Unit unit = Unit::length;
    struct Term {
        Eigen::Vector2d point; ///< [m]
        double factor = 0;     ///< of the rise there
    };
    std::vector<Term> terms;
};

/// Where the rise of the long axis is taken at a station: on it, across a notch as the straight
/// line from side to side has it, else where the board comes nearest; the factors' sum is one.
std::vector<ShapeNumber::Term> axis(const Board& board, double x);

/// All numbers of a board: camber (rise of the axis at x = 0 above the line through the contact
/// stations), camber_edge (the same of the chord from edge to edge), nose_height, tail_height,
/// concavity (axis minus chord) at the contact stations, feet, x = 0 and some more, twist (slope of
/// the chord at the nose's contact station minus the tail's). \param rest null: the flat blank
std::vector<ShapeNumber> shape_numbers(const Board& board, const RestShape* rest,
                                       const std::vector<double>& concavity);

/// Rise at (x, y) above the line through the axis at the contact stations, the roll of the whole
/// board taken out.
ShapeNumber free_rise(const Board& board, const RestShape* rest, const Eigen::Vector2d& point);

/// The loads whose work with a motion is each number: unknowns x numbers.
Eigen::MatrixXd shape_loads(const MeshPlaces& places, const std::vector<ShapeNumber>& numbers);

} // namespace vrid
