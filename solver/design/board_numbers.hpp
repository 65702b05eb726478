#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "solver/design/design_board.hpp"
#include "solver/design/number_id.hpp"
#include "solver/design/number_requests.hpp"
#include "solver/edge.hpp"
#include "solver/study.hpp"

namespace vrid {

/// A number that was asked for. Numbers of several degrees carry bars, the mass that of its
/// integration; EI, GJ and thickness need no mesh and have none.
struct BoardNumber {
    NumberId request;
    Quantity quantity;
    Eigen::VectorXd slope; ///< by the design values, SI by SI; empty unless asked for
};

/// Where to sand: derivative of numbers by the core thickness, over the area, at the integration
/// points of a mesh, quad by quad.
struct CoreDensity {
    std::shared_ptr<const Mesh> mesh;
    int degree = 0;                   ///< (degree + 1)^2 points a quad, xi fastest
    std::vector<std::size_t> numbers; ///< of BoardNumbers::numbers, one a column
    Eigen::MatrixXd density;          ///< points x numbers, SI per m3
};

/// Where to add width: derivative of numbers by a move of the outline outwards, over its length, at
/// the vertices of a mesh along it. The sum over vertices of density, length and move is the change
/// of a number.
struct OutlineDensity {
    std::shared_ptr<const Mesh> mesh;
    std::vector<int> vertices;        ///< of the mesh, along the outline
    Eigen::Matrix2Xd at, outward;     ///< places [m] and normals
    Eigen::VectorXd length;           ///< of the outline that goes by each: half of both sides [m]
    std::vector<std::size_t> numbers; ///< of BoardNumbers::numbers, one a column
    Eigen::MatrixXd density;          ///< vertices x numbers, SI per m2
    [[nodiscard]] bool any() const { return !numbers.empty(); }
};

/// A derivative that is one on either side of a value: lines that lie on each other there part.
struct Kink {
    std::size_t number = 0;      ///< of BoardNumbers::numbers
    DesignId value;              ///< its slope is the mean of the two
    double below = 0, above = 0; ///< SI
};

struct BoardNumbers {
    std::vector<BoardNumber> numbers;   ///< in the order of the requests
    std::vector<CoreDensity> densities; ///< of bench cases and modes, of edge results; if asked for
    OutlineDensity outline = {};        ///< of bench cases and modes; if asked for
    std::vector<std::string> warnings;
    std::vector<DesignId> values; ///< of the slopes' columns; empty without slopes
    std::vector<Kink> kinks;
    SharedPrepared prepared, edge_prepared, strength_prepared; ///< run on; null: nothing was
};

/// What to find of the numbers, and how.
struct NumbersOptions : Settings {
    bool slopes = true;
    bool densities = false;  ///< with the slopes, where to sand
    bool outline = false;    ///< with the slopes, where to add width
    EdgeCondition edge = {}; ///< for the edge results
    bool edge_bars = true;   ///< of the edge results
    /// Of the values that move lines those whose slopes are wanted; slopes by others are 0.
    std::vector<LineValue> lines = {};
    /// The meshes to run on; null: own.
    SharedPrepared prepared = nullptr, edge_prepared = nullptr, strength_prepared = nullptr;
};

/// Computes the numbers, and with `slopes` their exact derivatives by every value of design_board.
/// One solve serves all bench cases and one all edge results; derivatives need no further solve
/// except a small adjoint one for each edge result, the points in contact held: where contact ends
/// the force is zero, so that a change of the set counts to second order only. Two equal
/// frequencies share the mean of their slopes, with a warning. \throws InputError for a case the
/// board cannot have, SolveError
BoardNumbers board_numbers(const DesignBoard& design, const std::vector<NumberId>& requests,
                           const NumbersOptions& options = {});
BoardNumbers board_numbers(const Board& board, const std::vector<NumberId>& requests,
                           const NumbersOptions& options = {});

/// Which of the numbers are asked for by such requests.
std::vector<std::size_t> numbers_where(const BoardNumbers& numbers,
                                       const std::function<bool(const NumberId&)>& which);

/// Derivatives by some of the design values: one row a number, one column a value; 0 for one
/// that moves no number.
Eigen::MatrixXd slopes_by(const BoardNumbers& numbers, const std::vector<DesignId>& ids);

} // namespace vrid
