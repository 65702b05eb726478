#pragma once

#include <optional>

#include <Eigen/Core>

namespace vrid {

/// By which rule in-plane stresses are held against strengths.
enum class Criterion {
    tsai_hill, ///< Hill (1950), Azzi and Tsai (1965), with the strength of each stress's own sign
    max_stress ///< each stress against its own strength
};

/// In what way a ply gives.
enum class FailureMode {
    fibre_tension,
    fibre_compression,
    grain_tension,
    grain_compression,
    crack_across,
    crush_across,
    in_plane_shear,
    yield,
    core_shear,
    delamination,
    wrinkling
};
constexpr int failure_modes = 11;

/// What a ply bears, in its own axes; compressive values positive [Pa].
struct PlyStrength {
    double Xt = 0, Xc = 0, Yt = 0, Yc = 0, S12 = 0;
    std::optional<double> S13, S23; ///< through the thickness; nothing: not judged
    /// Metals and plastics: X by the sign of s1 + s2, Y = X, S12 = X / sqrt 3 (von Mises); Yt, Yc
    /// and S12 are not read.
    bool isotropic = false;
};

/// Stresses in ply axes: 11, 22, 12 [Pa].
using PlyStress = Eigen::Vector3d;

/// 1 at failure. Tsai-Hill is a square of stress, max_stress goes with stress itself.
double failure_index(const PlyStrength& strength, Criterion criterion, const PlyStress& stress);

/// The least L >= 0 at which residual + L load fails: 0 when the residual stress alone does,
/// infinity when no L does. The regions of equal signs are walked one by one: within one the index
/// is a quadratic in L, solved exactly.
double failure_factor(const PlyStrength& strength, Criterion criterion, const PlyStress& residual,
                      const PlyStress& load);

/// Which of the in-plane stresses uses most of its strength: 0 along, 1 across, 2 shear.
int largest_part(const PlyStrength& strength, const PlyStress& stress);

/// The stress along over the largest, each by its strength; negative in compression.
double along_part(const PlyStrength& strength, const PlyStress& stress);

/// (s13/S13)^2 + (s23/S23)^2; 0 where a strength is not known. \param shear (13, 23) [Pa]
double shear_index(const PlyStrength& strength, const Eigen::Vector2d& shear);

} // namespace vrid
