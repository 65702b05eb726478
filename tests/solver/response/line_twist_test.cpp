#include "solver/response/line_twist.hpp"

#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

namespace {

using namespace vrid;

// Homogeneous, z = 0 at its bottom face.
Section<double> sheet(double E, double G, double nu, double thickness) {
    PlyConstants<double> ply;
    ply.E1 = ply.E2 = E;
    ply.nu12 = nu;
    ply.G12 = ply.G13 = ply.G23 = G;
    return section(std::vector<Lamina<double>>{lamina(ply, 0.0, thickness)});
}

} // namespace

// By hand: minimise int T (s' - 2)^2 + S s^2 dy over s = g_xz, T = G h^3 / 12, S = 5/6 G h. The
// strip turns about its middle plane, wherever z = 0 is.
TEST_CASE("GJ of a homogeneous strip is G h^3 b / 3 less the free edges' share, in any parts") {
    const double G = 3e9;
    const double h = 0.008;
    const Section<double> s = sheet(8e9, G, 0.3, h);
    for (const double b : {0.03, 0.11, 0.29}) {
        const double x = std::sqrt(10.0) / h * b / 2;
        const double expected = G * h * h * h * b / 3 * (1 - std::tanh(x) / x);
        CHECK(twist_stiffness({{0.1, 0.1 + b, s}}) == Approx(expected).epsilon(1e-7));
        const double y = 0.1 - b / 2; // off the long axis, in uneven parts
        CHECK(twist_stiffness(
                  {{y, y + 0.003, s}, {y + 0.003, y + 0.7 * b, s}, {y + 0.7 * b, y + b, s}}) ==
              Approx(expected).epsilon(1e-7));
    }
}

// GJ is homogeneous of degree 1 in all sections (Euler), and its weights are its slopes.
TEST_CASE("the weights of GJ give back GJ, and its change with each part") {
    std::vector<PartSection> parts{{-0.12, -0.1, sheet(8e9, 3e9, 0.3, 0.008)},
                                   {-0.1, 0.07, sheet(4e9, 1e9, 0.2, 0.01)},
                                   {0.07, 0.13, sheet(20e9, 2e9, 0.1, 0.006)}};
    const Eigen::VectorXd weights = twist_weights(parts);
    double sum = 0;
    for (std::size_t p = 0; p < parts.size(); ++p) {
        const SectionTerms own = weights.segment<section_terms>(section_terms * Eigen::Index(p));
        const double share = own.dot(section_column(parts[p].section));
        sum += share;
        std::vector<PartSection> moved = parts;
        const double step = 1e-4;
        double change = 0;
        for (const double sign : {1.0, -1.0}) {
            Section<double>& s = moved[p].section;
            const Section<double>& was = parts[p].section;
            s.A = was.A * (1 + sign * step);
            s.B = was.B * (1 + sign * step);
            s.D = was.D * (1 + sign * step);
            s.S = was.S * (1 + sign * step);
            change += sign * twist_stiffness(moved) / (2 * step);
        }
        CHECK(share == Approx(change).epsilon(1e-6));
    }
    CHECK(sum == Approx(twist_stiffness(parts)).epsilon(1e-10));
}
