#include "solver/system/mass_matrix.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/system/loading.hpp"
#include "tests/solver/system/grid_model.hpp"

using namespace vrid;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double sheet_area = 0.3; // [m2]

// One component the same everywhere.
VectorXd even_motion(const PlateModel& model, Component component, double value = 1) {
    VectorXd u = VectorXd::Zero(model.unknowns());
    for (int node = 0; node < model.numbering.nodes; ++node) {
        u(unknown(node, component)) = value;
    }
    return u;
}

} // namespace

TEST_CASE("rigid motions of a flat sheet have its mass and inertia") {
    const PlateModel model = tests::grid_model(2);
    const MassMatrix mass = mass_matrix(model);
    const std::array<Component, 5> all{comp_u, comp_v, comp_w, comp_bx, comp_by};
    MatrixXd motions(model.unknowns(), 5);
    for (Eigen::Index k = 0; k < 5; ++k) {
        motions.col(k) = even_motion(model, all[static_cast<std::size_t>(k)]);
    }
    const MatrixXd M = motions.transpose() * times(mass, motions);
    MatrixXd wanted = MatrixXd::Zero(5, 5); // per area: I0 on u v w, I1 beside, I2 on bx by
    wanted.diagonal() << 3, 3, 3, 4e-6, 4e-6;
    wanted(0, 3) = wanted(3, 0) = wanted(1, 4) = wanted(4, 1) = 3e-3;
    CHECK((M - sheet_area * wanted).cwiseAbs().maxCoeff() < 1e-14);
    // pitch about the origin: w = x, with int x^2 dA over the sheet
    VectorXd pitch = VectorXd::Zero(model.unknowns());
    for (int node = 0; node < model.numbering.nodes; ++node) {
        pitch(unknown(node, comp_w)) = model.numbering.position(0, node);
    }
    CHECK(pitch.dot(times(mass, pitch).col(0)) == Approx(3 * 0.3 * 2 * 0.125 / 3));
}

TEST_CASE("on a slope the director goes with the motion along the surface, not with that across") {
    // it rises by 0.6 of its length
    const PlateModel model = tests::grid_model(2, {-0.36, 0, 0.36}, Interpolation::linear);
    const MassMatrix mass = mass_matrix(model);
    const VectorXd along = even_motion(model, comp_u, 0.8) + even_motion(model, comp_w, 0.6);
    const VectorXd across = even_motion(model, comp_u, -0.6) + even_motion(model, comp_w, 0.8);
    const VectorXd turn = even_motion(model, comp_bx);
    const auto between = [&](const VectorXd& a, const VectorXd& b) {
        return a.dot(times(mass, b).col(0)) / sheet_area;
    };
    CHECK(between(along, along) == Approx(3));
    CHECK(between(across, across) == Approx(3));
    CHECK(between(along, turn) == Approx(3e-3));
    CHECK(between(turn, along) == Approx(3e-3));
    CHECK(between(across, turn) == Approx(0).margin(1e-15));
    CHECK(between(turn, across) == Approx(0).margin(1e-15));
    CHECK(between(turn, turn) == Approx(4e-6));
    // aside as on the flat
    CHECK(between(even_motion(model, comp_v), even_motion(model, comp_by)) == Approx(3e-3));
    CHECK(between(even_motion(model, comp_by), even_motion(model, comp_by)) == Approx(4e-6));
}

TEST_CASE("the mass matrix is symmetric, columns do not mix") {
    for (const std::vector<double>& heights : {std::vector<double>{}, {0.1, 0, 0.2}}) {
        const PlateModel model = tests::grid_model(2, heights);
        const MassMatrix mass = mass_matrix(model);
        MatrixXd u(model.unknowns(), 3);
        for (Eigen::Index i = 0; i < u.rows(); ++i) {
            u.row(i) << std::sin(i), std::cos(2.3 * i), std::sin(0.7 * i * i);
        }
        const MatrixXd Mu = times(mass, u);
        const MatrixXd M = u.transpose() * Mu;
        CHECK((M - M.transpose()).norm() < 1e-14 * M.norm());
        for (Eigen::Index c = 0; c < 3; ++c) {
            CHECK((times(mass, u.col(c)) - Mu.col(c)).norm() < 1e-14 * Mu.norm());
        }
    }
}
