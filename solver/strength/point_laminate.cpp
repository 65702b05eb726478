#include "solver/strength/point_laminate.hpp"

#include "solver/strength/point_index.hpp"
#include "solver/strength/wrinkling.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

namespace vrid {

namespace {

using Eigen::Matrix2d;
using Eigen::Matrix3d;
using Eigen::Vector3d;

Face face_of(const std::vector<Lamina<double>>& laminae, std::size_t from, std::size_t to) {
    Matrix3d A = Matrix3d::Zero();
    Matrix3d B = Matrix3d::Zero();
    Matrix3d D = Matrix3d::Zero();
    double z = 0;
    for (std::size_t i = from; i < to; ++i) {
        const double t = laminae[i].thickness;
        A += laminae[i].Qbar * t;
        B += laminae[i].Qbar * (t * (z + t / 2));
        D += laminae[i].Qbar * (t * (z * z + z * t + t * t / 3));
        z += t;
    }
    return {from, to, D - B * A.inverse() * B};
}

// The flow of a material under Q in its ply's axes: what ply_shear makes of it at any height,
// turned once.
ShearFlow turned_flow(const ShearFlow& flow, const JudgedPly& ply, const Vector2d& share,
                      const Vector2d& Q) {
    const auto turned = [&](const Vector2d& unit) {
        return Vector2d(share.cwiseProduct(ply_shear(ply, unit.cwiseProduct(Q))));
    };
    return {turned(flow.a), turned(flow.b), turned(flow.c)};
}

// The height above the bottom at which the shear index of a part is largest: the best of even
// points, then golden steps around it, since the index is a quartic.
double worst_shear(const ShearFlow& flow, const PlyStrength& strength, double thickness) {
    const auto index = [&](double zeta) { return shear_index(strength, flow.at(zeta)); };
    constexpr int even = 8;
    int best = 0;
    double largest = -1;
    for (int i = 0; i <= even; ++i) {
        if (const double here = index(thickness * i / even); here > largest) {
            largest = here;
            best = i;
        }
    }
    constexpr double golden = 0.6180339887498949;
    double from = thickness * std::max(best - 1, 0) / even;
    double to = thickness * std::min(best + 1, even) / even;
    double a = to - golden * (to - from);
    double b = from + golden * (to - from);
    double at_a = index(a);
    double at_b = index(b);
    for (int step = 0; step < 24; ++step) {
        if (at_a > at_b) {
            to = b;
            b = a;
            at_b = at_a;
            a = to - golden * (to - from);
            at_a = index(a);
        } else {
            from = a;
            a = b;
            at_a = at_b;
            b = from + golden * (to - from);
            at_b = index(b);
        }
    }
    return (from + to) / 2;
}

} // namespace

std::vector<ShearFlow> shear_flows(const std::vector<Lamina<double>>& stack,
                                   const Section<double>& section) {
    const Matrix3d minus_AinvB = -(section.A.inverse() * section.B);
    const Matrix3d Dstar = section.D + section.B * minus_AinvB;
    const Eigen::Matrix<double, 3, 2> k = Dstar.inverse().leftCols<2>();
    const Eigen::Matrix<double, 3, 2> e = minus_AinvB * k;
    std::vector<ShearFlow> flows;
    Vector2d a = Vector2d::Zero();
    double z = 0;
    for (const Lamina<double>& layer : stack) {
        const double t = layer.thickness;
        ShearFlow flow{a, {}, {}};
        for (int i = 0; i < 2; ++i) {
            const int bending = 1 - i; // Qy goes with My (column 1), Qx with Mx (column 0)
            const auto row = layer.Qbar.row(bending);
            flow.b(i) = -(row.dot(e.col(bending) + z * k.col(bending)));
            flow.c(i) = -(row.dot(k.col(bending))) / 2;
        }
        a = flow.at(t);
        z += t;
        flows.push_back(flow);
    }
    return flows;
}

PointLaminate point_laminate(const std::vector<Lamina<double>>& laminae,
                             const std::vector<const JudgedPly*>& plies) {
    PointLaminate point;
    point.z = {0};
    bool cored = false;
    for (std::size_t i = 0; i < laminae.size(); ++i) {
        if (laminae[i].thickness > 0) {
            if (plies[i]->core) {
                cored = true;
                point.core = point.laminae.size();
            }
            point.laminae.push_back(laminae[i]);
            point.plies.push_back(plies[i]);
            point.z.push_back(point.z.back() + laminae[i].thickness);
        }
    }
    point.section = section(point.laminae);
    point.flow = shear_flows(point.laminae, point.section);
    if (cored && point.core > 0) {
        point.faces.push_back(face_of(point.laminae, 0, point.core));
    }
    if (cored && point.core + 1 < point.laminae.size()) {
        point.faces.push_back(face_of(point.laminae, point.core + 1, point.laminae.size()));
    }
    return point;
}

PointLaminate point_laminate(const Layup<double>& layup, const JudgedLayup& judged,
                             const StackKey& key, const Vector2d& at) {
    return point_laminate(stack_laminae(layup, key, core_thickness(layup, at)),
                          judged_stack(layup, judged, key));
}

PlyStress ply_stress(const JudgedPly& ply, const Vector3d& e, const Vector3d& k, double z,
                     const Vector3d& free) {
    return Q(ply.ply) * (strain_turn(ply.angle) * (e + z * k - free));
}

Vector2d ply_shear(const JudgedPly& ply, const Vector2d& yz_xz) {
    const double c = std::cos(ply.angle);
    const double s = std::sin(ply.angle);
    return {c * yz_xz(1) + s * yz_xz(0), c * yz_xz(0) - s * yz_xz(1)};
}

void visit_stresses(const PointLaminate& point, const PointLoad& load,
                    const PointResidual& residual,
                    const std::function<void(const PointStress&)>& visit) {
    for (std::size_t i = 0; i < point.plies.size(); ++i) {
        const JudgedPly& ply = *point.plies[i];
        const double thickness = point.laminae[i].thickness;
        const Matrix3d to_stress = Q(ply.ply) * strain_turn(ply.angle);
        for (std::size_t k = 0; k < ply.parts.size(); ++k) {
            const JudgedPart& part = ply.parts[k];
            const ShearFlow flow = turned_flow(point.flow[i], ply, part.shear_share, load.Q);
            const auto at = [&](double zeta) {
                const double z = point.z[i] + zeta;
                PointStress stress{i, k, z, {}, PlyStress::Zero(), {}};
                stress.load = part.share * (to_stress * (load.e + z * load.k));
                if (!residual.free.empty()) {
                    stress.residual =
                        residual.share(i) * part.share *
                        (to_stress * (residual.e + z * residual.k - residual.free[i]));
                }
                stress.shear = flow.at(zeta);
                visit(stress);
            };
            at(0);
            if (part.strength && !load.Q.isZero(0)) {
                at(worst_shear(flow, *part.strength, thickness));
            }
            at(thickness);
        }
    }
}

void visit_failures(const PointLaminate& point, const PointLoad& load,
                    const PointResidual& residual, Criterion criterion,
                    const std::function<void(const PointFailure&)>& visit) {
    visit_stresses(point, load, residual, [&](const PointStress& stress) {
        const JudgedPly& ply = *point.plies[stress.ply];
        const JudgedPart& part = ply.parts[stress.part];
        if (!part.strength) {
            return;
        }
        const double factor =
            failure_factor(*part.strength, criterion, stress.residual, stress.load);
        if (std::isfinite(factor)) {
            const PlyStress failing = stress.residual + factor * stress.load;
            visit({stress.ply, stress.part, in_plane_mode(part, failing), factor, stress.z,
                   along_part(*part.strength, failing)});
        }
        if (const double index = shear_index(*part.strength, stress.shear); index > 0) {
            visit({stress.ply, stress.part,
                   ply.core ? FailureMode::core_shear : FailureMode::delamination,
                   1 / std::sqrt(index), stress.z});
        }
    });
    visit_wrinkling(point, load, residual, visit);
}

} // namespace vrid
