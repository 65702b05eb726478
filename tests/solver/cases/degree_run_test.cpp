#include "solver/cases/degree_run.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "tests/plate_problem.hpp"

using namespace vrid;

namespace {

struct Pressed {
    PlateModel model;
    Loading loading;
    int middle = 0;
};

// Simply supported square of side 1 with D = 1 under a central force of 1.
Pressed pressed_square(double thickness, int cells, int degree) {
    const double nu = 0.3;
    const double E = 12 * (1 - nu * nu) / std::pow(thickness, 3);
    Pressed p{make_model(mesh_patch({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, cells, cells, 0), degree,
                         tests::isotropic_section(E, nu, thickness)),
              {},
              0};
    p.loading = free_loading(p.model);
    const auto side = [&](int axis, double at) {
        return tests::outline_nodes(
            p.model, [=](double x, double y) { return std::abs((axis == 0 ? x : y) - at) < 1e-9; });
    };
    for (const double at : {0.0, 1.0}) {
        for (const int axis : {0, 1}) {
            for (const Component c : {comp_u, comp_v, comp_w, axis == 0 ? comp_by : comp_bx}) {
                prescribe(p.loading, side(axis, at), c);
            }
        }
    }
    p.middle = unknowns_per_node * tests::nearest_node(p.model, 0.5, 0.5) + comp_w;
    p.loading.force(p.middle) = 1;
    return p;
}

double force_residual(const Pressed& p, const Eigen::VectorXd& u) {
    Eigen::VectorXd missing = p.loading.force - internal_forces(p.model, u);
    for (Eigen::Index k = 0; k < missing.size(); ++k) {
        missing(k) *= p.loading.fixed[static_cast<std::size_t>(k)] != 0 ? 0 : 1;
    }
    return missing.norm();
}

} // namespace

// So thin that u rounded to double leaves more of the force than would be accepted of a thick
// plate; how much depends on the processor, the answer does not.
TEST_CASE("a thin plate is solved, though rounding leaves a large residual of the force") {
    const Pressed p = pressed_square(5e-6, 12, 4);
    const CaseSolution solution = tests::solve_one(p.model, p.loading);
    CHECK(solution.residual <= 1.001 * force_residual(p, solution.u)); // the smaller of two
    CHECK(solution.residual < 1e-6);
    // Navier's series, Timoshenko and Woinowsky-Krieger, 1959, eq. 144:
    // w = 4 / pi^4 sum sin^2 sin^2 / (m2 + n2)^2, summed to 7 digits
    double w = 0;
    for (int m = 1; m < 4000; m += 2) {
        for (int n = 1; n < 4000; n += 2) {
            w += 4 / std::pow(std::numbers::pi, 4) / std::pow(1.0 * m * m + 1.0 * n * n, 2);
        }
    }
    CHECK(solution.u(p.middle) == Approx(w).epsilon(1e-4));
}

TEST_CASE("a plate too thin for double precision is refused, not answered") {
    // bending is 1e-18 of shear, less than the last digit of their sum
    const Pressed p = pressed_square(1e-9, 8, 4);
    CHECK_THROWS_AS(tests::solve_one(p.model, p.loading), SolveError);
}
