#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/rest_shape.hpp"
#include "mesh/mesher.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/system/edge_line.hpp"

namespace vrid {

/// Lines across the board that the edge needs: the feet's and their middles, and the contact lines:
/// rising stations [m].
std::vector<double> edge_stations(const Board& board);

/// What the mesher is asked for: contact lines, the feet's patches and middles, and what the bench
/// cases get beside feet and outline.
MeshOptions edge_mesh_request(const Layup<double>& layup, double size,
                              const RestShape* rest = nullptr);

/// Nodes of the quads inside the rectangle of the foot at station `foot` [m]. \throws InputError
/// when there are none
std::vector<int> foot_patch(const Board& board, const PlateModel& model, double foot);

/// Height of the unloaded running surface at the points [m].
Eigen::VectorXd rest_heights(const Board& board, const EdgePoints& points);

} // namespace vrid
