// Stress through the thickness: equilibrium with the plate's own resultants.
#include "solver/strength/ply_profile.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/strength/point_index.hpp"
#include "tests/laminate_strain.hpp"
#include "tests/solver/strength/textbook_plies.hpp"

using namespace vrid;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

// Neither a mirror of itself nor balanced, on a soft core.
struct Uneven {
    JudgedLayup judged;
    std::vector<JudgedPly> plies;
    std::vector<Lamina<double>> laminae;

    Uneven() {
        judged.layers = {"lower", "core", "upper"};
        add(0, tests::textbook_carbon(), 0.5, 0.7e-3);
        add(0, tests::textbook_glass(), -0.9, 0.4e-3);
        add(1, {0.9e9, 0.05e9, 0.3, 0.06e9, 0.07e9, 0.02e9}, 0.1, 6e-3);
        add(2, tests::textbook_glass(), 1.2, 1.1e-3);
        plies[2].core = true;
        plies[2].E3 = 0.05e9;
    }
    void add(int layer, const PlyConstants<double>& ply, double angle, double thickness) {
        JudgedPly one;
        one.layer = layer;
        one.angle = angle;
        one.ply = ply;
        one.parts = {
            {"", MaterialFamily::fibre, PlyStrength{900e6, 600e6, 35e6, 110e6, 60e6, 50e6, 40e6}}};
        plies.push_back(one);
        laminae.push_back(lamina(ply, angle, thickness));
    }
    [[nodiscard]] PointLaminate point() const {
        std::vector<const JudgedPly*> all;
        for (const JudgedPly& ply : plies) {
            all.push_back(&ply);
        }
        return point_laminate(laminae, all);
    }
};

Vector3d turned_back(const Vector3d& stress, double angle) { // ply axes to x, y, xy
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    return {c * c * stress(0) + s * s * stress(1) - 2 * c * s * stress(2),
            s * s * stress(0) + c * c * stress(1) + 2 * c * s * stress(2),
            c * s * (stress(0) - stress(1)) + (c * c - s * s) * stress(2)};
}

struct Resultants {
    Vector3d N = Vector3d::Zero(), M = Vector3d::Zero();
    Vector2d Q = Vector2d::Zero(); // yz, xz
};

// Simpson's rule, exact for what a ply's stress is.
Resultants integrated(const std::vector<PlyProfile>& plies) {
    Resultants sum;
    for (const PlyProfile& ply : plies) {
        const double t = ply.top - ply.bottom;
        for (const auto& [at, weight] :
             {std::pair(0.0, 1.0 / 6), std::pair(0.5, 4.0 / 6), std::pair(1.0, 1.0 / 6)}) {
            const Vector3d mean =
                (1 - at) * ply.stress.in_plane.col(0) + at * ply.stress.in_plane.col(1);
            const Vector3d stress = turned_back(mean, ply.angle);
            sum.N += weight * t * stress;
            sum.M += weight * t * (ply.bottom + at * t) * stress;
            const Vector2d shear = ply.stress.shear.col(static_cast<Eigen::Index>(2 * at));
            const double c = std::cos(ply.angle);
            const double s = std::sin(ply.angle);
            sum.Q +=
                weight * t * Vector2d(s * shear(0) + c * shear(1), c * shear(0) - s * shear(1));
        }
    }
    return sum;
}

} // namespace

TEST_CASE("stress through the thickness adds up to the plate's N, M and Q, in any laminate") {
    const Uneven uneven;
    const PointLaminate point = uneven.point();
    const Vector3d e(1.1e-3, -0.4e-3, 0.7e-3);
    const Vector3d k(0.3, -0.2, 0.5);
    const Vector2d Q(700, -1900);
    const auto plies = ply_profiles(uneven.judged, point, {e, k, Q}, {});
    const Resultants sum = integrated(plies);
    const Section<double>& s = point.section;
    const Vector3d N = s.A * e + s.B * k;
    const Vector3d M = s.B * e + s.D * k;
    CHECK((sum.N - N).norm() < 1e-9 * N.norm());
    CHECK((sum.M - M).norm() < 1e-9 * M.norm());
    // the flows are of unit bending in each direction alone, so each gives its own force
    CHECK((sum.Q - Q).norm() < 1e-9 * Q.norm());
    CHECK(plies.front().stress.shear.col(0).norm() < 1e-6); // free faces
    CHECK(plies.back().stress.shear.col(2).norm() < 1e-6);
}

TEST_CASE("stress of a released laminate makes no force and no moment") {
    const Uneven uneven;
    const PointLaminate point = uneven.point();
    PointResidual before;
    Vector3d NF = Vector3d::Zero();
    Vector3d MF = Vector3d::Zero();
    for (std::size_t i = 0; i < point.laminae.size(); ++i) {
        const double n = static_cast<double>(i) + 1;
        before.free.push_back(1e-4 * Vector3d(n, 3 - n, 0.5 * n));
        before.stiffness.push_back(i == 2 ? 0.4 : 1); // a ply that creeps
        const double t = point.laminae[i].thickness;
        const Vector3d part = before.stiffness[i] * t * (point.laminae[i].Qbar * before.free[i]);
        NF += part;
        MF += (point.z[i] + t / 2) * part;
    }
    Section<double> held;
    for (std::size_t i = 0; i < point.laminae.size(); ++i) {
        const Eigen::Matrix3d slow = before.stiffness[i] * point.laminae[i].Qbar;
        const double a = point.z[i];
        const double b = point.z[i + 1];
        held.A += (b - a) * slow;
        held.B += (b * b - a * a) / 2 * slow;
        held.D += (b * b * b - a * a * a) / 3 * slow;
    }
    const auto strain = tests::laminate_strain(held, NF, MF);
    before.e = strain.e;
    before.k = strain.k;
    const Resultants sum = integrated(ply_profiles(uneven.judged, point, {}, before));
    CHECK(sum.N.norm() < 1e-9 * NF.norm());
    CHECK(sum.M.norm() < 1e-9 * MF.norm());
}

TEST_CASE("the index by ply and mode has the point's largest, and is 1 at each way's factor") {
    const Uneven uneven;
    const PointLaminate point = uneven.point();
    const PointLoad load{{1.1e-3, -0.4e-3, 0.7e-3}, {0.3, -0.2, 0.5}, {700, -1900}};
    for (const Criterion criterion : {Criterion::tsai_hill, Criterion::max_stress}) {
        PointFailure first;
        first.factor = HUGE_VAL;
        visit_failures(point, load, {}, criterion, [&](const PointFailure& one) {
            first = one.factor < first.factor ? one : first;
        });
        const double by = first.factor;
        PointIndex largest;
        visit_indices(
            point, {by * load.e, by * load.k, by * load.Q}, {}, criterion,
            [&](const PointIndex& one) { largest = one.index > largest.index ? one : largest; });
        CHECK(largest.index == Approx(1).epsilon(1e-9));
        CHECK(largest.mode == first.mode);
        CHECK(largest.ply == first.ply);
        CHECK(largest.z == Approx(first.z));
    }
}
