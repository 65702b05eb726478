#include "solver/strength/point_laminate.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

namespace vrid {

namespace {

using Eigen::Matrix2d;
using Eigen::Matrix3d;
using Eigen::Vector2d;
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

// The height above the bottom at which the shear index of a part is largest: the best of even
// points, then golden steps around it, since the index is a quartic.
double worst_shear(const ShearFlow& flow, const JudgedPly& ply, const PlyStrength& strength,
                   const Vector2d& share, double thickness, const Vector2d& Q) {
    const auto index = [&](double zeta) {
        return shear_index(strength,
                           share.cwiseProduct(ply_shear(ply, flow.at(zeta).cwiseProduct(Q))));
    };
    constexpr int even = 8;
    int best = 0;
    double largest = -1;
    for (int i = 0; i <= even; ++i) {
        if (const double here = index(thickness * i / even); here > largest) {
            largest = here;
            best = i;
        }
    }
    double from = thickness * std::max(best - 1, 0) / even;
    double to = thickness * std::min(best + 1, even) / even;
    for (int step = 0; step < 24; ++step) {
        const double a = from + 0.381966 * (to - from);
        const double b = from + 0.618034 * (to - from);
        (index(a) > index(b) ? to : from) = index(a) > index(b) ? b : a;
    }
    return (from + to) / 2;
}

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

Vector3d face_force(const PointLaminate& point, const Face& face, const PointResidual& state) {
    Vector3d N = Vector3d::Zero();
    for (std::size_t i = face.from; i < face.to; ++i) {
        const double middle = (point.z[i] + point.z[i + 1]) / 2;
        Vector3d strain = state.e + middle * state.k;
        if (!state.free.empty()) {
            strain -= state.free[i];
        }
        N += state.share(i) * point.laminae[i].thickness * (point.laminae[i].Qbar * strain);
    }
    return N;
}

// Force over wrinkling force in the direction of the largest compression; below 0 under tension.
double wrinkling_use(const Face& face, const JudgedPly& core, const Vector3d& N) {
    const double mean = (N(0) + N(1)) / 2;
    const double half = (N(0) - N(1)) / 2;
    const double least = mean - std::hypot(half, N(2));
    const double angle = std::atan2(N(2), half) / 2 + std::acos(0.0); // of the least principal
    return -least / wrinkling_force(face, core, {std::cos(angle), std::sin(angle)});
}

double wrinkling_factor(const Face& face, const JudgedPly& core, const Vector3d& residual,
                        const Vector3d& load) {
    const auto use = [&](double L) { return wrinkling_use(face, core, residual + L * load); };
    if (residual.isZero(0)) {
        const double one = use(1);
        return one > 0 ? 1 / one : HUGE_VAL;
    }
    if (use(0) >= 1) {
        return 0;
    }
    // beyond the last turn of the direction use rises evenly: double until passed, then halve
    double to = 1e-3 * wrinkling_force(face, core, {1, 0}) / load.norm();
    double from = 0;
    for (int step = 0; use(to) < 1; ++step, from = to, to *= 1.5) {
        if (step > 60) {
            return HUGE_VAL;
        }
    }
    for (int step = 0; step < 60; ++step) {
        const double middle = (from + to) / 2;
        (use(middle) < 1 ? from : to) = middle;
    }
    return to;
}

void visit_wrinkling(const PointLaminate& point, const PointLoad& load,
                     const PointResidual& residual,
                     const std::function<void(const PointFailure&)>& visit) {
    for (const Face& face : point.faces) {
        const Vector3d N = face_force(point, face, {load.e, load.k, {}, {}});
        const Vector3d before =
            residual.free.empty() ? Vector3d(Vector3d::Zero()) : face_force(point, face, residual);
        if (N.isZero(0)) {
            continue;
        }
        const double factor = wrinkling_factor(face, *point.plies[point.core], before, N);
        const bool below = face.to == point.core;
        if (std::isfinite(factor)) {
            visit({below ? face.to - 1 : face.from, 0, FailureMode::wrinkling, factor,
                   below ? point.z[face.to] : point.z[face.from]});
        }
    }
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
            const auto at = [&](double zeta) {
                const double z = point.z[i] + zeta;
                PointStress stress{i, k, z, {}, PlyStress::Zero(), {}};
                stress.load = part.share * (to_stress * (load.e + z * load.k));
                if (!residual.free.empty()) {
                    stress.residual =
                        residual.share(i) * part.share *
                        (to_stress * (residual.e + z * residual.k - residual.free[i]));
                }
                stress.shear = part.shear_share.cwiseProduct(
                    ply_shear(ply, point.flow[i].at(zeta).cwiseProduct(load.Q)));
                visit(stress);
            };
            at(0);
            if (part.strength && !load.Q.isZero(0)) {
                at(worst_shear(point.flow[i], ply, *part.strength, part.shear_share, thickness,
                               load.Q));
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
            visit({stress.ply, stress.part, in_plane_mode(part, failing), factor, stress.z});
        }
        if (const double index = shear_index(*part.strength, stress.shear); index > 0) {
            visit({stress.ply, stress.part,
                   ply.core ? FailureMode::core_shear : FailureMode::delamination,
                   1 / std::sqrt(index), stress.z});
        }
    });
    visit_wrinkling(point, load, residual, visit);
}

double failure_index(const PointLaminate& point, const PointLoad& load,
                     const PointResidual& residual, Criterion criterion) {
    const bool squares = criterion == Criterion::tsai_hill;
    double largest = 0;
    visit_stresses(point, load, residual, [&](const PointStress& stress) {
        const auto& strength = point.plies[stress.ply]->parts[stress.part].strength;
        if (strength) {
            const double shear = shear_index(*strength, stress.shear);
            largest = std::max({largest,
                                failure_index(*strength, criterion, stress.residual + stress.load),
                                squares ? shear : std::sqrt(shear)});
        }
    });
    for (const Face& face : point.faces) {
        Vector3d N = face_force(point, face, {load.e, load.k, {}, {}});
        if (!residual.free.empty()) {
            N += face_force(point, face, residual);
        }
        const double use = wrinkling_use(face, *point.plies[point.core], N);
        largest = std::max(largest, squares && use > 0 ? use * use : use);
    }
    return largest;
}

double wrinkling_force(const Face& face, const JudgedPly& core, const Vector2d& n) {
    const Vector3d k(n(0) * n(0), n(1) * n(1), 2 * n(0) * n(1));
    const double D = k.dot(face.D * k);
    const double G = core.ply.G13 * n(0) * n(0) + core.ply.G23 * n(1) * n(1);
    return 0.5 * std::cbrt(12 * D * core.E3 * G);
}

} // namespace vrid
