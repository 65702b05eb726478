#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/design/bench.hpp"

namespace vrid {

/// The free values of a bench file one after the other, SI.
struct FreeValues {
    std::vector<DesignId> ids;
    std::vector<std::string> names; ///< for messages
    Eigen::VectorXd start, min, max;
    Eigen::VectorXd weight; ///< 1 / prior sd, 0 without one
    Eigen::VectorXd scale;  ///< what counts as one unit in the algebra
};

/// \throws InputError for a value that moves no number
FreeValues free_values(const Board& board, const Bench& bench);

} // namespace vrid
