#pragma once

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"
#include "io/write/limits.hpp"

namespace vrid {

/// What documents say of a condition on the edge.
struct WrittenCondition {
    std::string name; ///< "edge 45 deg 800 N 5 N/mm3"
    double angle_deg = 0, force_N = 0;
    double hardness = 0; ///< [N/mm3], or [N/mm2] of a linear law
    double share = 0;    ///< of the front foot
    std::string side;    ///< "left"
    std::string law;     ///< "volume", "linear"
};
VRID_FIELDS(WrittenCondition, 17, name, angle_deg, force_N, hardness, share, side, law)

struct EdgeDifference {
    Measured quantity;
    bool resolved = false;
};
VRID_FIELDS(EdgeDifference, 0, quantity, resolved)

struct FoundCondition : WrittenCondition {
    Some<std::string> no_equilibrium{}; ///< why; then there is nothing below
    Numbers numbers{};                  ///< "peak", "loss_nose" ...
    std::optional<double> balance{};
    Some<Named<EdgeDifference>> difference{}; ///< to the first board
};
VRID_FIELDS(FoundCondition, 17, name, angle_deg, force_N, hardness, share, side, law,
            no_equilibrium, numbers, balance, difference)

/// A board in conditions on the edge.
struct BoardOnEdge {
    BoardEntry board{};
    std::vector<FoundCondition> conditions{};
    std::vector<std::string> warnings{};
    Later<Verdicts> limits{}; ///< on the edge
};
VRID_FIELDS(BoardOnEdge, 0, board, conditions, warnings, limits)

/// The document edge.json.
struct FoundEdge : BoardOnEdge {
    int format = 1;
    Later<std::string> program;
    Later<std::string> shape, motion; ///< "rest", "flat"; "large", "small"
    std::optional<MeshEntry> mesh;
    std::optional<BoardOnEdge> compared; ///< a second board in the same conditions
    Later<std::string> caution{vrid::caution};
};
VRID_FIELDS(FoundEdge, 0, format, program, board, shape, motion, conditions, limits, mesh, warnings,
            compared, caution)

} // namespace vrid
