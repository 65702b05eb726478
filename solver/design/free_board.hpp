#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/design/board_numbers.hpp"

namespace vrid {

/// A board with chosen design values set, SI, in the order of the paths; a path that design_board
/// does not know moves nothing. Every layer of the answer has its fabric to itself.
Board board_at(const Board& start, const std::vector<std::string>& paths,
               const Eigen::VectorXd& values);

/// Derivatives of the numbers of board_at by these values: one row a number, one column a path.
Eigen::MatrixXd free_slopes(const Board& start, const std::vector<std::string>& paths,
                            const Eigen::VectorXd& values, const BoardNumbers& numbers);

} // namespace vrid
