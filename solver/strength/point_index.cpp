#include "solver/strength/point_index.hpp"

#include <algorithm>
#include <cmath>

#include "solver/strength/wrinkling.hpp"

namespace vrid {

FailureMode in_plane_mode(const JudgedPart& part, const PlyStress& stress) {
    const PlyStrength& strength = *part.strength;
    if (strength.isotropic) {
        return FailureMode::yield;
    }
    switch (largest_part(strength, stress)) {
    case 0:
        if (part.family == MaterialFamily::wood) {
            return stress(0) >= 0 ? FailureMode::grain_tension : FailureMode::grain_compression;
        }
        return stress(0) >= 0 ? FailureMode::fibre_tension : FailureMode::fibre_compression;
    case 1:
        return stress(1) >= 0 ? FailureMode::crack_across : FailureMode::crush_across;
    default:
        return FailureMode::in_plane_shear;
    }
}

void visit_indices(const PointLaminate& point, const PointLoad& load, const PointResidual& residual,
                   Criterion criterion, const std::function<void(const PointIndex&)>& visit) {
    const bool squares = criterion == Criterion::tsai_hill;
    visit_stresses(point, load, residual, [&](const PointStress& stress) {
        const JudgedPly& ply = *point.plies[stress.ply];
        const JudgedPart& part = ply.parts[stress.part];
        if (!part.strength) {
            return;
        }
        const PlyStress all = stress.residual + stress.load;
        visit({stress.ply, stress.part, in_plane_mode(part, all),
               failure_index(*part.strength, criterion, all), stress.z,
               along_part(*part.strength, all)});
        const double shear = shear_index(*part.strength, stress.shear);
        visit({stress.ply, stress.part,
               ply.core ? FailureMode::core_shear : FailureMode::delamination,
               squares ? shear : std::sqrt(shear), stress.z});
    });
    for (const Face& face : point.faces) {
        Eigen::Vector3d N = face_force(point, face, {load.e, load.k, {}, {}});
        if (!residual.free.empty()) {
            N += face_force(point, face, residual);
        }
        const double use = std::max(0.0, wrinkling_use(face, *point.plies[point.core], N));
        const bool below = face.to == point.core;
        const std::size_t ply = below ? face.to - 1 : face.from;
        visit({ply, 0, FailureMode::wrinkling, squares ? use * use : use,
               below ? point.z[face.to] : point.z[face.from]});
    }
}

double failure_index(const PointLaminate& point, const PointLoad& load,
                     const PointResidual& residual, Criterion criterion) {
    double largest = 0;
    visit_indices(point, load, residual, criterion,
                  [&](const PointIndex& one) { largest = std::max(largest, one.index); });
    return largest;
}

} // namespace vrid
