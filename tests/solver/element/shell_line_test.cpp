// Strains and forces along a line of motions: exact derivatives against others of the same element.
#include "solver/element/shell_line.hpp"

#include <array>
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/element/director_strain.hpp"
#include "solver/element/stress_stiffness.hpp"
#include "tests/plate_problem.hpp"
#include "tests/rest_shapes.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::VectorXd;

namespace {

struct CurvedQuad {
    ReferenceElement reference;
    ShellTables tables;
    std::vector<PlateStiffness> sections;
    VectorXd u, x;

    explicit CurvedQuad(int p) {
        PlateModel model =
            make_model(mesh_patch({{{0, 0}, {1.1, 0.1}, {1.25, 0.95}, {-0.1, 0.8}}}, 1, 1), p,
                       isotropic_section(1, 0.3, 0.1));
        reference = model.reference;
        tables = shell_tables(reference, element_nodes(model, 0), *arc(2.5, -0.2, 1.4));
        sections = model.stiffness;
        for (PlateStiffness& section : sections) {
            section.B = 0.02 * section.A; // so that all strains meet
        }
        u.resize(Index(unknowns_per_node) * reference.n);
        x.resize(u.size());
        for (Index k = 0; k < u.size(); ++k) {
            u(k) = 0.03 * std::sin(1.3 * static_cast<double>(k));
            x(k) = std::cos(0.7 * static_cast<double>(k));
        }
    }

    [[nodiscard]] VectorXd forces(double a) const {
        ShellStrains at = shell_strains(reference, tables, u + a * x);
        ElementTables linear;
        linear.weight = tables.weight;
        linear.strain = std::move(at.ds);
        return element_forces(reference, linear, element_resultants(sections, at.strain));
    }

    [[nodiscard]] StrainLine resultants() const {
        const StrainLine s = strain_line(reference, tables, u, x);
        return {element_resultants(sections, s.value), element_resultants(sections, s.first),
                element_resultants(sections, s.second)};
    }
};

// Second derivative at 0 by values at -2 .. 2 steps, twice: what is left is of sixth order.
template <class Values> auto second_difference(const Values& at) {
    const auto coarse = [&](double h) {
        return ((-at(2 * h) - at(-2 * h) + 16 * at(h) + 16 * at(-h) - 30 * at(0)) / (12 * h * h))
            .eval();
    };
    constexpr double h = 4e-3;
    return ((16 * coarse(h) - coarse(2 * h)) / 15).eval();
}

} // namespace

TEST_CASE("strains along a line of motions change as the element's own derivatives say") {
    const int p = GENERATE(1, 2, 3);
    const CurvedQuad quad(p);
    const StrainLine line = strain_line(quad.reference, quad.tables, quad.u, quad.x);
    const ShellStrains at = shell_strains(quad.reference, quad.tables, quad.u);
    const VectorXd change = at.ds * quad.x;
    CAPTURE(p);
    CHECK((line.value - at.strain).norm() < 1e-14 * at.strain.norm());
    CHECK((strains_at(quad.reference, quad.tables, quad.u) - at.strain).norm() <
          1e-14 * at.strain.norm());
    CHECK((line.first - change.reshaped(8, quad.reference.m)).norm() < 1e-13 * change.norm());
}

TEST_CASE("second derivatives of strains and forces along a line of motions are those of "
          "differences") {
    const int p = GENERATE(1, 2, 3);
    const CurvedQuad quad(p);
    const StrainLine line = strain_line(quad.reference, quad.tables, quad.u, quad.x);
    const PointStrains strains = second_difference([&](double a) -> PointStrains {
        return shell_strains(quad.reference, quad.tables, quad.u + a * quad.x).strain;
    });
    const VectorXd forces = second_difference([&](double a) { return quad.forces(a); });
    const VectorXd exact =
        second_forces(quad.reference, quad.tables, quad.u, quad.x, quad.resultants());
    CAPTURE(p);
    CHECK((line.second - strains).norm() < 1e-8 * strains.norm());
    CHECK((exact - forces).norm() < 1e-8 * forces.norm());
}

// The same derivative by another way: psi.K psi changes along any motion y by y.forces.
TEST_CASE("the second derivative of the forces is the slope of the energy of a small motion") {
    const CurvedQuad quad(2);
    const VectorXd exact =
        second_forces(quad.reference, quad.tables, quad.u, quad.x, quad.resultants());
    const auto twice_energy = [&](const VectorXd& u) {
        ElementTables linear;
        linear.weight = quad.tables.weight;
        ShellStrains at = shell_strains(quad.reference, quad.tables, u);
        linear.strain = std::move(at.ds);
        Eigen::MatrixXd K;
        element_stiffness(quad.reference, linear, quad.sections, K);
        add_stress_stiffness(quad.reference, quad.tables, u,
                             element_resultants(quad.sections, at.strain), K);
        return quad.x.dot(K * quad.x);
    };
    VectorXd y(quad.u.size());
    for (Index k = 0; k < y.size(); ++k) {
        y(k) = std::sin(2.1 * static_cast<double>(k) + 0.3);
    }
    constexpr double h = 1e-4;
    const double slope = (8 * (twice_energy(quad.u + h * y) - twice_energy(quad.u - h * y)) -
                          twice_energy(quad.u + 2 * h * y) + twice_energy(quad.u - 2 * h * y)) /
                         (12 * h);
    CHECK(exact.dot(y) == Approx(slope).epsilon(1e-9));
}

TEST_CASE("Taylor numbers carry products, inverses and roots to the second derivative") {
    // at t = 0.3: root((1 + t^2) / (2 + t)), by hand
    const Taylor t{0.3, 1, 0};
    const Taylor f = root((t * t + 1.0) * inverse(t + 2.0));
    const auto value = [](double s) { return std::sqrt((1 + s * s) / (2 + s)); };
    constexpr double h = 1e-3;
    CHECK(f.value == Approx(value(0.3)).epsilon(1e-15));
    CHECK(f.first ==
          Approx((8 * (value(0.3 + h) - value(0.3 - h)) - value(0.3 + 2 * h) + value(0.3 - 2 * h)) /
                 (12 * h))
              .epsilon(1e-10));
    // g = f^2: g'' = 10 / (2 + t)^3 and g'' = 2 f'^2 + 2 f f''
    CHECK(2 * f.first * f.first + 2 * f.value * f.second ==
          Approx(10 / std::pow(2.3, 3)).epsilon(1e-14));
}
