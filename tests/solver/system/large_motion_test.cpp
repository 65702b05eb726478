// Large motion of the shell against beams and plates that are known far beyond small motion.
#include "solver/system/large_motion.hpp"

#include <cmath>
#include <numbers>

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "tests/plate_problem.hpp"
#include "tests/rest_shapes.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::VectorXd;

namespace {

std::array<Eigen::Vector2d, 4> rectangle(double length, double b) {
    return {{{0, -b / 2}, {length, -b / 2}, {length, b / 2}, {0, b / 2}}};
}

std::vector<int> nodes_at(const PlateModel& model, double x) {
    return outline_nodes(model, [x](double X, double) { return std::abs(X - x) < 1e-9; });
}

struct Balanced {
    VectorXd u;
    BentState state;
};

// Newton's method under dead loads and prescribed motion, both in even steps.
Balanced balance(const PlateModel& model, const Loading& loading, int steps) {
    const LargeMotionModel bent = large_motion_model(model, 1);
    const EliminationTree tree = elimination_order(model.numbering, {});
    Balanced found{VectorXd::Zero(model.unknowns()), {}};
    VectorXd& u = found.u;
    for (int step = 1; step <= steps; ++step) {
        const double share = static_cast<double>(step) / steps;
        VectorXd owed = share * loading.motion - u; // of the prescribed motion
        for (int iteration = 0; iteration < 25; ++iteration) {
            found.state = bent_state(bent, u, 1);
            VectorXd lack = share * loading.force - found.state.force;
            VectorXd du = VectorXd::Zero(u.size());
            for (Index k = 0; k < u.size(); ++k) {
                du(k) = loading.fixed[static_cast<std::size_t>(k)] != 0 ? owed(k) : 0;
            }
            owed.setZero();
            lack -= tangent_forces(bent.model, found.state.K, du);
            for (Index k = 0; k < u.size(); ++k) {
                lack(k) = loading.fixed[static_cast<std::size_t>(k)] != 0 ? 0 : lack(k);
            }
            const Factor factor = factorise(
                tree,
                [&](int quad, Eigen::MatrixXd& K) {
                    K = found.state.K[static_cast<std::size_t>(quad)];
                },
                loading.fixed);
            du += solve(factor, lack).col(0);
            u += du;
            if (du.cwiseAbs().maxCoeff() < 1e-11 * u.cwiseAbs().maxCoeff()) {
                break;
            }
        }
    }
    found.state = bent_state(bent, u, 1);
    return found;
}

} // namespace

TEST_CASE("internal forces are the slope of the energy, and the tangent that of the forces") {
    const int p = GENERATE(1, 3);
    PlateModel model =
        make_model(mesh_patch({{{0, 0}, {1.1, 0.1}, {1.25, 0.95}, {-0.1, 0.8}}}, 2, 1, 0.2), p,
                   isotropic_section(1, 0.3, 0.1));
    model.rest = arc(2.5, -0.2, 1.4);
    const LargeMotionModel bent = large_motion_model(model, 1);
    VectorXd u(model.unknowns());
    VectorXd step(model.unknowns());
    for (Index k = 0; k < u.size(); ++k) {
        u(k) = 0.03 * std::sin(1.3 * static_cast<double>(k));
        step(k) = std::cos(0.7 * static_cast<double>(k));
    }
    const BentState at = bent_state(bent, u, 1);
    constexpr double h = 1e-5;
    const BentState above = bent_state(bent, u + h * step, 1);
    const BentState below = bent_state(bent, u - h * step, 1);
    CHECK((above.energy - below.energy) / (2 * h) == Approx(at.force.dot(step)).epsilon(1e-6));
    const VectorXd slope = (above.force - below.force) / (2 * h);
    CHECK((slope - tangent_forces(bent.model, at.K, step)).norm() < 1e-6 * slope.norm());
}

TEST_CASE("at rest the tangent is the linear stiffness of the rest shape") {
    PlateModel model =
        make_model(mesh_patch(rectangle(1, 0.3), 3, 2, 0.2), 3, isotropic_section(1, 0.3, 0.1));
    model.rest = arc(2.5, 0, 1);
    const LargeMotionModel bent = large_motion_model(model, 1);
    const VectorXd u = VectorXd::LinSpaced(model.unknowns(), -1, 2);
    const BentState rest = bent_state(bent, VectorXd::Zero(model.unknowns()), 1);
    const VectorXd Ku = internal_forces(model, u);
    CHECK((tangent_forces(bent.model, rest.K, u) - Ku).norm() < 1e-11 * Ku.norm());
}

// C and S are interpolated with u: the energy of a rotation falls with the degree.
TEST_CASE("a finite rotation of a curved board costs next to no energy") {
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(0.8, Eigen::Vector3d(0.3, -0.8, 0.5).normalized()).toRotationMatrix();
    const double L = 0.6;
    const double R = 0.5;
    double before = 1;
    for (const int p : {2, 3, 4, 6}) {
        PlateModel model =
            make_model(mesh_patch(rectangle(L, 0.3), 8, 3), p, isotropic_section(1, 0.3, 0.005));
        model.rest = arc(R, 0, L);
        VectorXd u(model.unknowns());
        for (int node = 0; node < model.numbering.nodes; ++node) {
            const double x = model.numbering.position(0, node);
            const Eigen::Vector3d at(R * std::sin(x / R), model.numbering.position(1, node),
                                     R * (1 - std::cos(x / R)));
            const Eigen::Vector3d t(std::cos(x / R), 0, std::sin(x / R));
            const Eigen::Vector3d d = turn * Eigen::Vector3d(-t.z(), 0, t.x());
            u.segment<3>(5 * node) = turn * at - at;
            u(5 * node + 3) = d.dot(t);
            u(5 * node + 4) = d.y();
        }
        const double energy =
            bent_state(large_motion_model(model, 1), u, 1).energy / (0.005 * 0.3 * L); // E = 1
        CAPTURE(p, energy);
        CHECK(std::abs(energy) < before);
        before = std::max(1e-3 * std::abs(energy), 1e-18);
    }
    CHECK(before < 2e-16);
}

// Bisshopp and Drucker (1945), Quart. Appl. Math. 3: P L^2 / EI = 1 gives delta / L = 0.301721.
TEST_CASE("a cantilever under an end force bends as the elastica") {
    const double L = 1;
    const double b = 0.02;
    const double h = 0.005;
    const double E = 1e9;
    const double EI = E * b * h * h * h / 12;
    const int p = GENERATE(2, 3);
    const PlateModel model =
        make_model(mesh_patch(rectangle(L, b), 10, 1), p, isotropic_section(E, 0, h));
    Loading loading = free_loading(model);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, nodes_at(model, 0), c);
    }
    const std::vector<int> end = nodes_at(model, L);
    const VectorXd share = p == 2 ? VectorXd(Eigen::Vector3d(1, 4, 1) / 6)
                                  : VectorXd(Eigen::Vector4d(1, 5, 5, 1) / 12);
    for (std::size_t i = 0; i < end.size(); ++i) {
        const double y = model.numbering.position(1, end[i]) / (b / 2);
        const bool corner = std::abs(y) > 0.99;
        loading.force(5 * end[i] + 2) = EI / (L * L) * (corner ? share(0) : share(1));
    }
    const Balanced found = balance(model, loading, 2);
    CAPTURE(p);
    CHECK(found.u(5 * end[0] + 2) == Approx(0.301721).epsilon(1e-4));
}

namespace {

// Turn of one end by a unit torque, of a strip that is held at both ends and stretched.
double turn_of_stretched(double L, double strain) {
    const double b = 0.05;
    const PlateModel model =
        make_model(mesh_patch(rectangle(L, b), static_cast<int>(std::lround(10 * L)), 2), 4,
                   isotropic_section(70e9, 0, 0.002));
    Loading loading = free_loading(model);
    for (const double x : {0.0, L}) {
        for (const Component c : {comp_v, comp_w, comp_by}) {
            prescribe(loading, nodes_at(model, x), c);
        }
        prescribe(loading, nodes_at(model, x), comp_u, x * (std::sqrt(1 + 2 * strain) - 1));
    }
    const Balanced found = balance(model, loading, 1);
    const LargeMotionModel bent = large_motion_model(model, 1);
    VectorXd turn = VectorXd::Zero(model.unknowns());
    for (const int node : nodes_at(model, L)) {
        turn(5 * node + 2) = model.numbering.position(1, node);
        turn(5 * node + 4) = -1;
    }
    const EliminationTree tree = elimination_order(model.numbering, {});
    const Factor factor = factorise(
        tree,
        [&](int quad, Eigen::MatrixXd& K) { K = found.state.K[static_cast<std::size_t>(quad)]; },
        loading.fixed);
    VectorXd lack = -tangent_forces(bent.model, found.state.K, turn);
    for (Index k = 0; k < lack.size(); ++k) {
        lack(k) = loading.fixed[static_cast<std::size_t>(k)] != 0 ? 0 : lack(k);
    }
    turn += solve(factor, lack).col(0);
    return 1 / turn.dot(tangent_forces(bent.model, found.state.K, turn).col(0));
}

} // namespace

// T / phi' = G J + N b^2 / 12 (Wagner 1929): nu = 0, strain 1e-3 gives 6.00913 N m2 where G J alone
// is 4.54861. What the ends hold is the same for two lengths; what the mesh makes of the free
// edges' layer is the same with and without the force.
TEST_CASE("a stretched strip is stiffer in twist as Wagner says") {
    const auto stiffness = [](double strain) {
        return 0.6 / (turn_of_stretched(1.2, strain) - turn_of_stretched(0.6, strain));
    };
    CHECK(stiffness(1e-3) - stiffness(0) == Approx(6.00913 - 4.54861).epsilon(2e-3));
}

// von Karman plate theory by Ritz's method, nu = 0.3: q a^4 / (E h^4) = 100 gives w / h = 0.93746.
TEST_CASE("a clamped square bends far beyond small motion as von Karman's plate") {
    const double h = 1.0 / 500;
    const double E = 1e9;
    const PlateModel model = make_model(mesh_patch({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, 4, 4), 4,
                                        isotropic_section(E, 0.3, h));
    Loading loading = free_loading(model);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, outline_nodes(model, [](double, double) { return true; }), c);
    }
    const double q = 100 * E * h * h * h * h;
    loading.force = pressure_forces(model, [q](double, double) { return q; });
    const Balanced found = balance(model, loading, 2);
    CHECK(found.u(5 * nearest_node(model, 0.5, 0.5) + 2) / h == Approx(0.93746).epsilon(1e-3));
}
