#pragma once

#include <string>

#include "solver/response/quantity.hpp"

namespace vrid {

/// One number of a board that a person can name: "nose-twist", "EI@-270", "edge.loss_nose".
struct NumberRequest {
    enum class Kind {
        mass,
        balance_x, ///< balance point
        balance_y,
        bench_case, ///< stiffness of a static case
        mode,       ///< frequency of the free board
        EI,
        GJ,
        thickness, ///< of the whole board on the long axis, at a station
        edge       ///< of a board on its edge
    };
    std::string name; ///< as written
    Kind kind = Kind::mass;
    Unit unit = Unit::none;
    std::string bench_case;  ///< its name, for Kind::bench_case
    int mode = 0;            ///< 1 is the first elastic one, for Kind::mode
    double station = 0;      ///< for EI, GJ, thickness [m]
    std::string edge_number; ///< as edge_numbers names it, for Kind::edge
};

/// The same number, however it was written: "EI@-270" and "EI@-270.0".
inline bool same_number(const NumberRequest& a, const NumberRequest& b) {
    return a.kind == b.kind && a.bench_case == b.bench_case && a.mode == b.mode &&
           a.station == b.station && a.edge_number == b.edge_number;
}

/// A place along or across the board: zero is where x or y is, so that a percentage of it says
/// nothing.
inline bool is_position(const NumberRequest& number) {
    const std::string& edge = number.edge_number;
    return number.kind == NumberRequest::Kind::balance_x ||
           number.kind == NumberRequest::Kind::balance_y || edge == "peak_x" ||
           edge == "contact_tail" || edge == "contact_nose";
}

} // namespace vrid
