#pragma once

#include "mesh/board/board.hpp"
#include "solver/cooling/mesh_place.hpp"
#include "solver/response/cooled_shape.hpp"

namespace vrid {

/// Takes the rigid motion out of motions, a column each: then the axis rises by nothing at the
/// contact stations, and the chords there have no slope in the mean.
void stand_on_contacts(const Board& board, const MeshPlaces& places, Eigen::MatrixXd& motions);

/// How far the board rises along its axis and across it at the contact stations and x = 0, of
/// motions that stand on the contacts: CooledShape::axis and across, for each column.
/// \param shapes as many as columns
void add_curves(const Board& board, const MeshPlaces& places, const Eigen::MatrixXd& motions,
                std::vector<CooledShape>& shapes);

} // namespace vrid
