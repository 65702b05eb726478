#pragma once

#include <vector>

#include "mesh/board/board.hpp"
#include "solver/cooling/mesh_place.hpp"
#include "solver/response/cooled_shape.hpp"

namespace vrid {

/// Where bending in two directions stretches the cooled board: share by which linear theory
/// overstates a curvature, E h b^4 k^2 / (720 D*) with the other curvature k, that of the mould
/// counted; between the contact stations. One for each column of `motions`.
std::vector<StretchShare> stretch_shares(const Board& board, SectionCache& sections,
                                         const MeshPlaces& places, const Eigen::MatrixXd& motions);

} // namespace vrid
