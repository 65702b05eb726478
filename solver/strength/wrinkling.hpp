#pragma once

#include <functional>

#include "solver/strength/point_laminate.hpp"

namespace vrid {

/// Membrane force of a face [N/m] (x, y, xy). \param state strain, curvature and what the plies
/// would take by themselves
Eigen::Vector3d face_force(const PointLaminate& point, const Face& face,
                           const PointResidual& state);

/// Force over wrinkling force in the direction of the largest compression; below 0 under tension.
double wrinkling_use(const Face& face, const JudgedPly& core, const Eigen::Vector3d& N);

/// The faces' part of visit_failures.
void visit_wrinkling(const PointLaminate& point, const PointLoad& load,
                     const PointResidual& residual,
                     const std::function<void(const PointFailure&)>& visit);

} // namespace vrid
