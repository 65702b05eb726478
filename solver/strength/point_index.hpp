#pragma once

#include <functional>

#include "solver/strength/point_laminate.hpp"

namespace vrid {

/// How near a ply of a point is to giving in one way.
struct PointIndex {
    std::size_t ply = 0, part = 0; ///< of a face: the ply of it next to the core
    FailureMode mode = FailureMode::fibre_tension;
    double index = 0; ///< 1 at failure, by the criterion's own measure
    double z = 0;     ///< [m]
    double along = 0; ///< in-plane: along_part of the stress
};

/// Every way of visit_failures under this very load: shear through the thickness and wrinkling as
/// the criterion counts, squared by tsai_hill, to the first power by max_stress.
void visit_indices(const PointLaminate& point, const PointLoad& load, const PointResidual& residual,
                   Criterion criterion, const std::function<void(const PointIndex&)>& visit);

/// In what way a part gives under in-plane stress. \param part with strengths
FailureMode in_plane_mode(const JudgedPart& part, const PlyStress& stress);

} // namespace vrid
