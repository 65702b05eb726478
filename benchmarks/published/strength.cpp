// Failure of plies, laminates and sandwiches.
#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "solver/strength/point_laminate.hpp"
#include "tests/laminate_strain.hpp"
#include "tests/solver/strength/textbook_plies.hpp"

namespace vrid::published {

namespace {

constexpr double radian = std::numbers::pi / 180;
constexpr double MPa = 1e6;

struct Stack {
    std::vector<std::unique_ptr<JudgedPly>> plies;
    std::vector<Lamina<double>> laminae;
    JudgedPly& add(const PlyConstants<double>& ply, double degrees, double thickness,
                   const PlyStrength& strength = {}) {
        plies.push_back(std::make_unique<JudgedPly>());
        JudgedPly& judged = *plies.back();
        judged.angle = degrees * radian;
        judged.ply = ply;
        judged.parts = {{"", MaterialFamily::fibre, strength}};
        laminae.push_back(lamina(ply, degrees * radian, thickness));
        return judged;
    }
    [[nodiscard]] PointLaminate point() const {
        std::vector<const JudgedPly*> all;
        for (const auto& ply : plies) {
            all.push_back(ply.get());
        }
        return point_laminate(laminae, all);
    }
};

// A carbon ply under a unit stress along x and a unit shear, by their shares.
std::function<Ours()> off_axis(double degrees, double x, double xy) {
    return [=] {
        const double c = std::cos(degrees * radian);
        const double s = std::sin(degrees * radian);
        const PlyStress stress(c * c * x + 2 * c * s * xy, s * s * x - 2 * c * s * xy,
                               -c * s * x + (c * c - s * s) * xy);
        return Ours{failure_factor(tests::textbook_carbon_strength(), Criterion::tsai_hill,
                                   PlyStress::Zero(), MPa * stress),
                    0};
    };
}

// The least force along x [N/m] at which a symmetric laminate gives, after cooling.
double first_force(const Stack& stack, double kelvin, Criterion criterion) {
    const PointLaminate point = stack.point();
    const Section<double>& s = point.section;
    const Eigen::Vector3d along = Eigen::Vector3d::UnitX();
    const auto pulled = // z counts from the running surface
        tests::laminate_strain(s, along, s.thickness / 2 * along);
    PointResidual residual;
    if (kelvin != 0) {
        const auto cooled = tests::laminate_strain(s, s.NT * kelvin, s.MT * kelvin);
        residual.e = cooled.e;
        residual.k = cooled.k;
        for (const Lamina<double>& one : point.laminae) {
            residual.free.push_back(one.expansion * kelvin);
        }
    }
    double least = std::numeric_limits<double>::infinity();
    visit_failures(point, {pulled.e, pulled.k, {0, 0}}, residual, criterion,
                   [&](const PointFailure& one) { least = std::min(least, one.factor); });
    return least;
}

struct Crossed {
    PlyConstants<double> ply;
    PlyStrength strength;
    std::vector<double> degrees;
    double thickness; // of a ply
};

std::function<Ours()> crack(const Crossed& of, double kelvin, double scale,
                            Criterion criterion = Criterion::tsai_hill) {
    return [=] {
        Stack stack;
        for (const double degrees : of.degrees) {
            stack.add(of.ply, degrees, of.thickness, of.strength);
        }
        return Ours{scale * first_force(stack, kelvin, criterion), 0};
    };
}

// tau_xz of a stack at a ply's height, under Q.
std::function<Ours()> shear_stress(const std::function<Stack()>& made, std::size_t ply, double zeta,
                                   double Q) {
    return [=] { return Ours{made().point().flow[ply].at(zeta)(1) * Q, 0}; };
}

Stack seven_plies() {
    Stack stack;
    const PlyConstants<double> ply{100e9, 5e9, 0.4, 3e9, 2e9, 2e9};
    for (int i = 0; i < 7; ++i) {
        stack.add(ply, i % 2 == 0 ? 0 : 90, i == 3 ? 0.4e-3 : 0.1e-3);
    }
    return stack;
}

Stack cylindrical() {
    Stack stack;
    for (const double degrees : {0, 90, 0}) {
        stack.add({25, 1, 0.25, 0.5, 0.5, 0.2}, degrees, 1.0 / 3);
    }
    return stack;
}

Stack sandwich(double core_E, double core_G) {
    Stack stack;
    const PlyConstants<double> face{40e9, 40e9, 0, 20e9, 20e9, 20e9};
    stack.add(face, 0, 1e-3);
    JudgedPly& core = stack.add({core_E, core_E, 0, core_G, core_G, core_G}, 0, 10e-3);
    core.core = true;
    core.E3 = core_E;
    stack.add(face, 0, 1e-3);
    return stack;
}

Ours wrinkles() {
    const Stack stack = sandwich(0.1e9, 0.04e9);
    const PointLaminate point = stack.point();
    return {wrinkling_force(point.faces[1], *stack.plies[1], {1, 0}) / 1e-3 / MPa, 0};
}

// Mean stress of a face under the moment of a sandwich beam.
Ours face_stress() {
    const Stack stack = sandwich(1e3, 150e6);
    const PointLaminate point = stack.point();
    const Eigen::Vector3d moment = 1000 * 0.5 / 4 / 50e-3 * Eigen::Vector3d::UnitX();
    const auto bent = tests::laminate_strain(point.section, Eigen::Vector3d::Zero(), moment);
    const auto at = [&](double z) { return ply_stress(*stack.plies[0], bent.e, bent.k, z)(0); };
    return {std::abs(at(0) + at(1e-3)) / 2 / MPa, 0};
}

} // namespace

std::vector<Check> strength() {
    const std::string hill = "Hill, The Mathematical Theory of Plasticity, 1950; Azzi, Tsai, "
                             "Anisotropic strength of composites, 1965; ply of Tsai, Hahn, 1980 "
                             "(from memory), formula recomputed";
    const std::string kaw =
        "Kaw, Mechanics of Composite Materials, 2006, example 5.3 (from memory; "
        "Tsai-Wu there 485.10), recomputed for this criterion";
    const std::string clt = "Jones, Mechanics of Composite Materials, 1975, ch. 4 (from memory): "
                            "classical lamination theory with Tsai-Hill, recomputed";
    const std::string nafems = "Hardy, Composite Benchmarks, NAFEMS R0031, 2001, test 1, target "
                               "4.1 MPa between plies 1 and 2 (from memory), "
                               "recomputed";
    const std::string pagano = "Pagano, Exact solutions for composite laminates in cylindrical "
                               "bending, 1969 (from memory)";
    const std::string allen =
        "Allen, Analysis and Design of Structural Sandwich Panels, 1969 (from "
        "memory): faces without bending of their own";
    const Crossed thick{
        tests::textbook_carbon(), tests::textbook_carbon_strength(), {0, 90, 0}, 5e-3};
    const Crossed thin{
        tests::textbook_carbon(), tests::textbook_carbon_strength(), {0, 90, 90, 0}, 0.125e-3};
    const Crossed of_glass{
        tests::textbook_glass(), tests::textbook_glass_strength(), {0, 90, 90, 0}, 0.125e-3};
    const double Q = 1 / std::numbers::pi; // over q S h
    return {
        {"carbon ply pulled at 10 deg, MPa", hill, 370.17, 5e-3, off_axis(10, 1, 0)},
        {"carbon ply pulled at 30 deg, MPa", hill, 111.96, 5e-3, off_axis(30, 1, 0)},
        {"carbon ply pulled at 45 deg, MPa", hill, 68.955, 5e-4, off_axis(45, 1, 0)},
        {"carbon ply pulled at 60 deg, MPa", hill, 50.504, 5e-4, off_axis(60, 1, 0)},
        {"carbon ply pushed at 10 deg, MPa", hill, 385.06, 5e-3, off_axis(10, -1, 0)},
        {"carbon ply pushed at 30 deg, MPa", hill, 154.77, 5e-3, off_axis(30, -1, 0)},
        {"carbon ply pushed at 45 deg, MPa", hill, 131.08, 5e-3, off_axis(45, -1, 0)},
        {"carbon ply pushed at 60 deg, MPa", hill, 141.72, 5e-3, off_axis(60, -1, 0)},
        {"shear xy on a +45 ply, MPa", hill, 239.64, 5e-3, off_axis(45, 0, 1)},
        {"shear xy on a -45 ply, MPa", hill, 39.972, 5e-4, off_axis(-45, 0, 1)},
        {"[0/90/0] 5 mm plies pulled, first crack, MPa", kaw, 487.19, 5e-3,
         crack(thick, 0, 1 / 15e-3 / MPa)},
        {"[0/90/0] 5 mm plies pulled, first crack by maximum stress, MPa", kaw, 487.32, 5e-3,
         crack(thick, 0, 1 / 15e-3 / MPa, Criterion::max_stress)},
        {"[0/90]s carbon 0.125 mm pulled, N/mm", clt, 187.118, 5e-4, crack(thin, 0, 1e-3)},
        {"[0/90]s carbon cooled by 75 K, pulled, N/mm", clt, 112.461, 5e-4, crack(thin, -75, 1e-3)},
        {"[0/90]s glass 0.125 mm pulled, N/mm", clt, 44.6059, 5e-5, crack(of_glass, 0, 1e-3)},
        {"[0/90]s glass cooled by 75 K, pulled, N/mm", clt, 35.5002, 5e-5,
         crack(of_glass, -75, 1e-3)},
        {"cross-ply strip: shear between plies 1 and 2, MPa", nafems, 4.10552, 5e-6,
         shear_stress(seven_plies, 1, 0, 5e3 / MPa)},
        {"cross-ply strip: shear at mid-plane, MPa", nafems, 6.63239, 5e-6,
         shear_stress(seven_plies, 3, 0.2e-3, 5e3 / MPa)},
        {"[0/90/0] in cylindrical bending, tau_xz(0) / (q S), S = 50", pagano, 0.4415, 5e-5,
         shear_stress(cylindrical, 1, 1.0 / 6, Q), Kind::other_model},
        {"sandwich beam, mean face stress, MPa", allen, 227.27, 5e-3, face_stress,
         Kind::other_model},
        {"sandwich beam, core shear, MPa", allen, 0.9091, 5e-5,
         shear_stress([] { return sandwich(1e3, 150e6); }, 1, 5e-3, 500 / 50e-3 / MPa),
         Kind::other_model},
        {"face wrinkles, Ef 40, Ec 0.10, Gc 0.04 GPa, MPa",
         "Hoff, Mautner, The buckling of sandwich-type panels, 1945 (from memory), with the "
         "reduced "
         "coefficient 0.5",
         271.44, 5e-3, wrinkles}};
}

} // namespace vrid::published
