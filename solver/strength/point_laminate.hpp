#pragma once

#include <functional>
#include <vector>

#include "solver/strength/judged_ply.hpp"

namespace vrid {

/// Transverse shear stress in a ply at zeta above its bottom: a + b zeta + c zeta^2; row 0 tau_yz
/// under unit Qy, row 1 tau_xz under unit Qx [1/m, 1/m2, 1/m3].
struct ShearFlow {
    Eigen::Vector2d a, b, c;
    [[nodiscard]] Eigen::Vector2d at(double zeta) const { return a + zeta * (b + zeta * c); }
};

/// The flows that make Section::S: equilibrium of slices under unit Mx,x = Qx and My,y = Qy at
/// N = 0. Zero at both faces, continuous, integral Q. One a lamina.
std::vector<ShearFlow> shear_flows(const std::vector<Lamina<double>>& stack,
                                   const Section<double>& section);

/// A face of a sandwich: all plies below or above the core.
struct Face {
    std::size_t from = 0, to = 0; ///< plies [from, to)
    Eigen::Matrix3d D;            ///< about its own neutral plane [N m]
};

/// The laminate at a point, ready to be judged.
struct PointLaminate {
    std::vector<Lamina<double>> laminae; ///< upwards, none of zero thickness
    std::vector<const JudgedPly*> plies; ///< one each
    std::vector<double> z;               ///< bottoms, then the top [m]
    std::vector<ShearFlow> flow;         ///< one each
    Section<double> section;
    std::vector<Face> faces; ///< of a board with a core
    std::size_t core = 0;    ///< which ply it is, if there are faces
};

/// \param key of a stack \param at the place, which tells the core thickness [m]
/// \param layup, judged must outlive the result
PointLaminate point_laminate(const Layup<double>& layup, const JudgedLayup& judged,
                             const StackKey& key, const Eigen::Vector2d& at);
/// Of any laminae and what they bear, one each.
PointLaminate point_laminate(const std::vector<Lamina<double>>& laminae,
                             const std::vector<const JudgedPly*>& plies);

/// What a load does at a point.
struct PointLoad {
    Eigen::Vector3d e = Eigen::Vector3d::Zero(); ///< membrane strain (x, y, xy)
    Eigen::Vector3d k = Eigen::Vector3d::Zero(); ///< curvature [1/m]
    Eigen::Vector2d Q = Eigen::Vector2d::Zero(); ///< shear force (yz, xz) [N/m]
};

/// What is there before any load: strain and curvature of the released board, and the strain
/// that each lamina would take by itself. None: `free` is empty.
struct PointResidual {
    Eigen::Vector3d e = Eigen::Vector3d::Zero(), k = Eigen::Vector3d::Zero();
    std::vector<Eigen::Vector3d> free; ///< (x, y, xy), one a lamina of PointLaminate
    /// Share of its stiffness that a lamina shows after hours (Material::slow); empty: all of it.
    std::vector<double> stiffness;
    [[nodiscard]] double share(std::size_t lamina) const {
        return stiffness.empty() ? 1 : stiffness[lamina];
    }
};

/// The stress in one material of a ply at a height, in its axes [Pa].
struct PointStress {
    std::size_t ply = 0, part = 0;
    double z = 0;             ///< [m]
    PlyStress load, residual; ///< (11, 22, 12)
    Eigen::Vector2d shear;    ///< (13, 23), of the load
};

/// In-plane stress of a ply at height z: Qbar (e + z k - f) in ply axes; f may be zero.
PlyStress ply_stress(const JudgedPly& ply, const Eigen::Vector3d& e, const Eigen::Vector3d& k,
                     double z, const Eigen::Vector3d& free = Eigen::Vector3d::Zero());
/// tau_yz, tau_xz turned into the ply's 13, 23.
Eigen::Vector2d ply_shear(const JudgedPly& ply, const Eigen::Vector2d& yz_xz);

/// Calls visit for bottom and top of every ply and for the height inside at which the shear index
/// is largest.
void visit_stresses(const PointLaminate& point, const PointLoad& load,
                    const PointResidual& residual,
                    const std::function<void(const PointStress&)>& visit);

/// A way in which the laminate gives at a point.
struct PointFailure {
    std::size_t ply = 0, part = 0; ///< of a face: the ply of it next to the core
    FailureMode mode = FailureMode::fibre_tension;
    double factor = 0; ///< on the load; 0: the residual stress alone does it
    double z = 0;      ///< [m]
    double along = 0;  ///< in-plane: along_part of the stress at failure
};

/// Every way at bottom and top of every judged ply, in each its own: in-plane by the criterion,
/// shear through the thickness, wrinkling of the faces. Ways that no load reaches are not visited.
void visit_failures(const PointLaminate& point, const PointLoad& load,
                    const PointResidual& residual, Criterion criterion,
                    const std::function<void(const PointFailure&)>& visit);

/// The largest index of the point by any of these ways, wrinkling as the square of force over
/// wrinkling force (max_stress: itself).
double failure_index(const PointLaminate& point, const PointLoad& load,
                     const PointResidual& residual, Criterion criterion);

/// The compressive force per width at which a face wrinkles into its core, in the direction of the
/// unit vector n: 0.5 (12 D_n E3 G_n)^(1/3), the reduced coefficient of Hoff and Mautner (1945).
double wrinkling_force(const Face& face, const JudgedPly& core, const Eigen::Vector2d& n);

} // namespace vrid
