#pragma once

#include <string>
#include <vector>

#include "solver/strength/point_laminate.hpp"

namespace vrid {

/// Stress in a ply: in its own axes, straight in the plane from its bottom to its top, a parabola
/// through the thickness.
struct ProfiledStress {
    Eigen::Matrix<double, 3, 2> in_plane = Eigen::Matrix<double, 3, 2>::Zero(); ///< 11, 22, 12 [Pa]
    Eigen::Matrix<double, 2, 3> shear =
        Eigen::Matrix<double, 2, 3>::Zero(); ///< 13, 23 at bottom, middle and top [Pa]
};

/// A material of a ply: all of it, or a strip that is smeared into it.
struct PartProfile {
    std::string material;
    std::optional<PlyStrength> strength;
    ProfiledStress stress;
};

struct PlyProfile {
    std::string layer;
    int number = 1;             ///< within its layer, from below
    double angle = 0;           ///< [rad]
    double bottom = 0, top = 0; ///< [m]
    ProfiledStress stress;      ///< of the ply as a whole: it makes up N, M and Q
    std::vector<PartProfile> parts;
};

/// Stress through the thickness at a point, upwards.
std::vector<PlyProfile> ply_profiles(const JudgedLayup& judged, const PointLaminate& point,
                                     const PointLoad& load, const PointResidual& before);

} // namespace vrid
