#include "solver/system/eigenvalues.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>

#include "solver/system/element_dofs.hpp"
#include "solver/system/mass_matrix.hpp"
#include "tests/plate_problem.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

PlateModel plate(double length, double width, int nx, int degree) {
    const int ny = 4;
    const Mesh mesh = mesh_patch({Eigen::Vector2d(0, 0), Eigen::Vector2d(length, 0),
                                  Eigen::Vector2d(length, width), Eigen::Vector2d(0, width)},
                                 nx, ny);
    // reference plane at the bottom: u, bx and v, by are coupled in stiffness and mass
    Section<double> section = moved_to(isotropic_section(70e9, 0.3, 0.004), 0.002);
    return make_model(mesh, degree, section);
}

MatrixXd dense_mass(const PlateModel& model) {
    return times(mass_matrix(model), MatrixXd::Identity(model.unknowns(), model.unknowns()));
}

/// All of them, by a dense solution of the pencil M, K + s M: turned over, so that the lowest are
/// the largest and as exact as these.
VectorXd dense_modes(const MatrixXd& K, const MatrixXd& M) {
    constexpr double s = 1e4; // of the lowest modes' size [rad2/s2]
    const Eigen::GeneralizedSelfAdjointEigenSolver<MatrixXd> eigen(M, K + s * M,
                                                                   Eigen::EigenvaluesOnly);
    return eigen.eigenvalues().reverse().cwiseInverse().array() - s;
}

std::vector<char> free_all(const PlateModel& model) {
    return std::vector<char>(static_cast<std::size_t>(model.unknowns()), 0);
}

} // namespace

TEST_CASE("the lowest modes are those of the dense pencil, equal ones as often as there are") {
    for (const double width : {0.2, 1.0}) { // a square has pairs of equal frequencies
        const PlateModel model = plate(1.0, width, width < 1 ? 6 : 4, 2);
        const VectorXd all = dense_modes(assembled(model), dense_mass(model));
        for (const int count : {1, 6, 12}) {
            CAPTURE(width, count);
            const Modes modes = lowest_modes(model, free_all(model), count);
            REQUIRE(modes.omega2.size() == count);
            for (int k = 0; k < count; ++k) {
                CAPTURE(k);
                CHECK(modes.omega2(k) == Approx(all(6 + k)).epsilon(1e-8)); // 6 rigid ones before
            }
            CHECK(modes.residual < 1e-7);
            const MatrixXd gram = modes.shape.transpose() * dense_mass(model) * modes.shape;
            CHECK((gram - MatrixXd::Identity(count, count)).norm() < 1e-8);
        }
    }
}

TEST_CASE("determinate supports hold a free plate and take no force from a load in equilibrium") {
    const PlateModel model = plate(1.0, 0.3, 6, 2);
    const EliminationTree tree = build_tree(element_dofs(model.numbering));
    const std::vector<char> held = determinate_supports(model, free_all(model), tree);
    CHECK(std::count(held.begin(), held.end(), 1) == 6);
    // forces of a motion are in equilibrium: those of w = x^3 y, bx = y, u = y^2
    VectorXd motion = VectorXd::Zero(model.unknowns());
    for (Eigen::Index node = 0; node < model.numbering.nodes; ++node) {
        const Eigen::Vector2d at = model.numbering.position.col(node);
        motion(5 * node) = at.y() * at.y();
        motion(5 * node + 2) = std::pow(at.x(), 3) * at.y();
        motion(5 * node + 3) = at.y();
    }
    const VectorXd force = internal_forces(model, motion);
    const Factor factor = factorise(
        tree, [&](int quad, MatrixXd& K) { quad_stiffness(model, quad, K); }, held);
    const VectorXd u = solve(factor, MatrixXd(force));
    CHECK((internal_forces(model, u) - force).norm() < 1e-8 * force.norm());
    CHECK(u.dot(force) == Approx(motion.dot(force)).epsilon(1e-8)); // a rigid motion apart
}

TEST_CASE("modes do not depend on where the search starts, not even far from them") {
    const PlateModel model = plate(1.0, 0.3, 6, 2);
    const Modes cold = lowest_modes(model, free_all(model), 6);
    ModeOptions options;
    options.start = MatrixXd::Zero(model.unknowns(), 3);
    for (Eigen::Index node = 0; node < model.numbering.nodes; ++node) {
        options.start(5 * node, 0) = 1;                                 // rigid: nothing is left
        options.start(5 * node, 1) = model.numbering.position(0, node); // in the plane
        options.start(5 * node + 2, 2) = node % 2 == 0 ? 1 : -1;        // rough
    }
    const Modes other = lowest_modes(model, free_all(model), 6, options);
    CHECK((other.omega2 - cold.omega2).cwiseQuotient(cold.omega2).norm() < 1e-9);
    options.start = cold.near;
    const Modes warm = lowest_modes(model, free_all(model), 6, options);
    CHECK((warm.omega2 - cold.omega2).cwiseQuotient(cold.omega2).norm() < 1e-9);
}

TEST_CASE("a held plate has no rigid motions left out") {
    const PlateModel model = plate(1.0, 0.3, 6, 2);
    std::vector<char> fixed = free_all(model);
    for (const int node : outline_nodes(model, [](double x, double) { return x < 1e-9; })) {
        std::fill_n(fixed.begin() + 5 * static_cast<std::ptrdiff_t>(node), 5, char(1));
    }
    const MatrixXd K = assembled(model);
    const MatrixXd M = dense_mass(model);
    std::vector<int> kept;
    for (int k = 0; k < model.unknowns(); ++k) {
        if (fixed[static_cast<std::size_t>(k)] == 0) {
            kept.push_back(k);
        }
    }
    const VectorXd all = dense_modes(K(kept, kept), M(kept, kept));
    const Modes modes = lowest_modes(model, fixed, 5);
    for (int k = 0; k < 5; ++k) {
        CHECK(modes.omega2(k) == Approx(all(k)).epsilon(1e-8));
    }
}

TEST_CASE("a motion at a higher degree is the same field") {
    const PlateModel coarse = plate(1.0, 0.3, 3, 2);
    const PlateModel fine = plate(1.0, 0.3, 3, 3);
    MatrixXd motion(coarse.unknowns(), 1);
    const auto field = [](double x, double y, int d) { return (d + 1) * x * x - 2 * x * y + y; };
    for (Eigen::Index node = 0; node < coarse.numbering.nodes; ++node) {
        for (int d = 0; d < 5; ++d) {
            motion(5 * node + d, 0) =
                field(coarse.numbering.position(0, node), coarse.numbering.position(1, node), d);
        }
    }
    const MatrixXd same = at_higher_degree(coarse, fine, motion);
    for (Eigen::Index node = 0; node < fine.numbering.nodes; ++node) {
        CHECK(same(5 * node + 3, 0) ==
              Approx(field(fine.numbering.position(0, node), fine.numbering.position(1, node), 3))
                  .margin(1e-12));
    }
}
