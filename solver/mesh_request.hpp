#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/rest_shape.hpp"
#include "mesh/mesher.hpp"
#include "solver/cases/cases.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/settings.hpp"
#include "solver/system/edge_line.hpp"

namespace vrid {

/// Lines across the board that the cases need, and the contact lines: rising stations [m].
std::vector<double> case_stations(const Board& board, const std::vector<const BenchCase*>& cases);

/// Width of the layer in which the twisting moment falls to zero at a free edge, times three: the
/// largest of sqrt(D66 / S_xz) over the core's stations, D66 about the neutral plane [m].
double edge_layer(const Layup<double>& layup);

/// What a board is computed on: its rest shape, or null for the flat blank.
std::shared_ptr<const RestShape> shape_of(const Board& board, const Settings& settings);

/// What the mesher is asked for: quads no longer than `max_size`, and no longer than a tenth of the
/// board where modes are asked for (their bars need three quads to a wave); the cases' lines, and
/// narrow strips where the solution changes fastest: beside the clamped foot strips, and along an
/// outline that has no band of that width already.
/// \param rest its stations become lines, where its curvature jumps; null: none
MeshOptions mesh_request(const Layup<double>& layup, const std::vector<const BenchCase*>& cases,
                         double max_size, const RestShape* rest = nullptr);

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
