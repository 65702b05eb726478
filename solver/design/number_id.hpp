#pragma once

#include <string>
#include <vector>

#include "solver/response/quantity.hpp"

namespace vrid {

/// Which number of a board. How people write it: io/write/number_name.
struct NumberId {
    enum class Kind {
        mass,
        balance_x, ///< balance point
        balance_y,
        bench_case, ///< stiffness of a static case
        mode,       ///< frequency of the free board
        EI,
        GJ,
        thickness,      ///< of the whole board on the long axis, at a station
        edge,           ///< of a board on its edge
        shape,          ///< out of the press: of the cooled board, or of its mould
        sidecut_radius, ///< the smaller side's
        length,         ///< tip to tip
        area,           ///< of the planform
        bent,           ///< of a case on the board bent far
        strength        ///< of the load at which a case's laminate first gives
    };
    Kind kind = Kind::mass;
    /// As the case table names it, for Kind::bench_case, bent and strength; "release", "cold" or
    /// "mould" for a shape.
    std::string bench_case = {};
    int mode = 0;                  ///< 1 is the first elastic one, for Kind::mode
    double station = 0;            ///< for EI, GJ, thickness, a shape's concavity [m]
    std::string edge_number = {};  ///< as edge_numbers names it, for Kind::edge
    std::string shape_number = {}; ///< as cooled_numbers names it, for Kind::shape
    std::string bent_number = {};  ///< as BentCase::numbers names it, for Kind::bent
    double travel = 0;             ///< for Kind::bent [m]
    /// "first", "breaks" (both loads) or "travel" (at the first), for Kind::strength.
    std::string strength_number = {};
    bool operator==(const NumberId&) const = default;
};

/// Its dimension.
Unit unit_of(const NumberId& number);

/// A place along or across the board: zero is where x or y is, so that a percentage of it says
/// nothing.
bool is_position(const NumberId& number);

/// "first", "breaks", "travel".
std::vector<std::string> strength_number_names();

/// What edge_numbers gives that is a property of the board: all but "balance", which tells whether
/// the edge is at rest.
std::vector<std::string> edge_number_names();

/// What numbers of a cooled board there are without a station: "camber" and others.
std::vector<std::string> shape_number_names();

} // namespace vrid
