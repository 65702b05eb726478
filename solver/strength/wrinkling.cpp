#include "solver/strength/wrinkling.hpp"

#include <cmath>

namespace vrid {

using Eigen::Vector3d;

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

double wrinkling_use(const Face& face, const JudgedPly& core, const Vector3d& N) {
    const double mean = (N(0) + N(1)) / 2;
    const double half = (N(0) - N(1)) / 2;
    const double least = mean - std::hypot(half, N(2));
    const double angle = std::atan2(N(2), half) / 2 + std::acos(0.0); // of the least principal
    return -least / wrinkling_force(face, core, {std::cos(angle), std::sin(angle)});
}

namespace {

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

} // namespace

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

double wrinkling_force(const Face& face, const JudgedPly& core, const Vector2d& n) {
    const Vector3d k(n(0) * n(0), n(1) * n(1), 2 * n(0) * n(1));
    const double D = k.dot(face.D * k);
    const double G = core.ply.G13 * n(0) * n(0) + core.ply.G23 * n(1) * n(1);
    return 0.5 * std::cbrt(12 * D * core.E3 * G);
}

} // namespace vrid
