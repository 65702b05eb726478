#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/laminate/layup.hpp"

namespace vrid {

/// One layer of the stack at a point, for people: what `vrid check` and reports list.
struct StackItem {
    std::string name;               ///< layer name; "edge", "sidewall", "flange", "tip spacer"
    std::string material;           ///< material or fabric
    double angle = 0;               ///< [rad]
    double z_bottom = 0, z_top = 0; ///< [m]
};

/// The stack of layers at a point of the board, upwards.
std::vector<StackItem> stack_at(const Board& board, const Eigen::Vector2d& point);
std::vector<StackItem> stack_at(const Layup<double>& layup, const Eigen::Vector2d& point);

} // namespace vrid
