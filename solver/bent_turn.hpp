#pragma once

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/cases/cases.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

/// A twist case's unit turn about the long axis, small, of nodes that stand where a bent board has
/// taken them: w = phi (y + v), and the directors of a foot turn along.
Loading turn_while_bent(const Board& board, const PlateModel& model, const BenchCase& twist,
                        const Eigen::VectorXd& u);

/// Twice the change of that prescribed motion by every unknown of the state u, times the forces
/// that it meets there. \param forces K psi
Eigen::VectorXd owed_to_place(const PlateModel& model, const Loading& turn,
                              const Eigen::VectorXd& u, const Eigen::VectorXd& forces);

} // namespace vrid
