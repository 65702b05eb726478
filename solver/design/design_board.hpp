#pragma once

#include <memory>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/board/eigen_names.hpp"
#include "solver/design/design_kinds.hpp"

namespace vrid {

/// A value that stands in a board and follows a design value.
struct Follower {
    double* place = nullptr; ///< in the DesignBoard's own board
    double slope = 0;        ///< derivative of the value there by the design value, both SI
};

/// What a person can change, and what of the section follows it in the board.
struct DesignValue {
    DesignId id;
    double value = 0; ///< SI; 1 for a scale that is not set
    std::vector<Follower> followers;

    [[nodiscard]] const DesignKind& kind() const { return *id.kind; }
};

/// A board taken apart for derivatives: every layer has its fabric to itself.
struct DesignBoard {
    std::unique_ptr<Board> board; ///< the followers' places are in it
    std::vector<DesignValue> values;
};

/// A copy of the board with all its design values that move a number (solver/design/design_kinds
/// lists the kinds): not strengths, not expansions without a cure, not the angle of the core. A
/// fabric that several layers share has one value. (Also a fabric's name is a design value, but no
/// number; see io/design_values.)
DesignBoard design_board(const Board& board);

/// Design values to set, SI, one an id.
struct SetValues {
    std::vector<DesignId> ids;
    Eigen::VectorXd values;
};

/// A value that moves lines of the mesh, and others that go along: when it becomes r times what it
/// was, so do they.
struct LineValue {
    DesignId id;
    std::vector<DesignId> carry = {};
};

/// Those of the values that move lines of the mesh; nothing goes along with them.
std::vector<LineValue> lines_among(const std::vector<DesignId>& ids);

/// The same with some values set: whatever their order, scales multiply what the others leave. The
/// design values stay those of the board as it was, so that derivatives are by them. One that
/// moves no number moves nothing. \throws InputError when values that move lines are set and no
/// board of that shape exists
DesignBoard design_board(const Board& board, const SetValues& set);

/// How far a workshop would change the value to see what it does, SI: 0.1 mm of thickness, 1 % of
/// the whole core's, 1 degree, 5 % areal weight, 0.02 fibre volume fraction, 10 % of a constant, 30
/// g/m2 of resin. (common practice, no source)
double workshop_step(const DesignValue& value);

} // namespace vrid
