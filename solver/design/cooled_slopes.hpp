#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/design/moved_mesh.hpp"
#include "solver/design/number_id.hpp"
#include "solver/study.hpp"

namespace vrid {

/// A board out of the press, and the mesh that moves with it.
struct CooledStudy {
    const Board& board;
    const StudyResult& study; ///< with its models; the shape's cases among them
    const MeshMover& mover;   ///< of study.prepared
    int threads = 1;
};

/// Derivatives of numbers of the shape (NumberId::Kind::shape) by a value that moves lines, SI by
/// SI. r = l.u - a.(K u - f) keeps still in u and a where K u = f and K a = l: both are held while
/// mesh, sections and places move, and the difference of r is that of the board without a solve.
Eigen::VectorXd cooled_line_slopes(const CooledStudy& of, const std::vector<NumberId>& numbers,
                                   const LineValue& line);

} // namespace vrid
