#include "solver/response/strain_change.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "tests/plate_problem.hpp"
#include "tests/rest_shapes.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// A parallelogram: its integrals are exact.
PlateModel sheet(int p) {
    return make_model(mesh_patch({{{0, 0}, {1, 0.1}, {1, 0.5}, {0, 0.4}}}, 3, 2, 0), p,
                      isotropic_section(1, 0.3, 0.1));
}

// One end held, the other drawn along and aside.
CaseSolution stretched(const PlateModel& model) {
    Loading loading = free_loading(model);
    const auto left = outline_nodes(model, [](double x, double) { return x < 1e-9; });
    const auto right = outline_nodes(model, [](double x, double) { return x > 1 - 1e-9; });
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, left, c);
        prescribe(loading, right, c, c == comp_u ? 1 : c == comp_v ? 0.4 : 0);
    }
    return solve_one(model, loading);
}

} // namespace

TEST_CASE("of a stretched sheet, which nothing ties, the change of strains is that of the energy") {
    for (const int p : {2, 3, 4}) {
        const PlateModel below = sheet(p - 1);
        const PlateModel model = sheet(p);
        const CaseSolution coarse = stretched(below);
        const CaseSolution fine = stretched(model);
        const double change = coarse.stiffness / fine.stiffness - 1; // Galerkin's orthogonality
        CHECK(change > 1e-4);
        CHECK(strain_change(below, coarse.u, model, fine.u, 1)(0) == Approx(change).epsilon(1e-8));
    }
}

TEST_CASE("a motion that the lower degree has as well changes no strain, none at all none either, "
          "on a rest shape too") {
    PlateModel below = sheet(2);
    PlateModel model = sheet(3);
    if (GENERATE(false, true)) {
        below.rest = model.rest = arc(2.5, -0.2, 1.4);
    }
    const auto turned = [](const PlateModel& at) { // stretched across, and at rest
        MatrixXd u = MatrixXd::Zero(at.unknowns(), 2);
        for (int node = 0; node < at.numbering.nodes; ++node) {
            u(unknown(node, comp_v), 0) = 0.01 * at.numbering.position(1, node);
        }
        return u;
    };
    const VectorXd change = strain_change(below, turned(below), model, turned(model), 2);
    CHECK(std::abs(change(0)) < 1e-20);
    CHECK(change(1) == 0);
}
