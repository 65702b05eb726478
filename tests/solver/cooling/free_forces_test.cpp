#include "solver/cooling/free_forces.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/system/loading.hpp"
#include "tests/solver/system/grid_model.hpp"

using namespace vrid;
using Eigen::VectorXd;

namespace {

// Every component a polynomial of the place: u, v, w, bx, by.
template <class Shape> VectorXd field_of(const PlateModel& model, const Shape& shape) {
    VectorXd u(model.unknowns());
    for (int node = 0; node < model.numbering.nodes; ++node) {
        u.segment<5>(unknown(node, comp_u)) =
            shape(model.numbering.position(0, node), model.numbering.position(1, node));
    }
    return u;
}

using Five = Eigen::Matrix<double, 5, 1>;

} // namespace

// The principle of virtual work, with strains by hand.
TEST_CASE("nodal forces of resultants do the work of their strains, and none in rigid motion") {
    const PlateModel model = tests::grid_model(3);
    Eigen::Matrix<double, 6, 1> even;
    even << 3, -2, 5, 0.7, 0.3, -0.4; // Nx Ny Nxy Mx My Mxy
    const auto points = static_cast<Eigen::Index>(model.stiffness.size());
    const Resultants once = even.replicate(1, points);
    const Eigen::MatrixXd force = nodal_forces(model, {once, -2 * once}, 1);
    REQUIRE(force.cols() == 2);
    CHECK((force.col(1) + 2 * force.col(0)).norm() < 1e-14);
    const auto work = [&](const auto& shape) { return force.col(0).dot(field_of(model, shape)); };
    constexpr double area = 0.3;
    CHECK(work([](double x, double) { return Five(x, 0, 0, 0, 0); }) == Approx(3 * area));
    CHECK(work([](double, double y) { return Five(0, y, 0, 0, 0); }) == Approx(-2 * area));
    CHECK(work([](double x, double y) { return Five(y, 2 * x, 0, 0, 0); }) == Approx(15 * area));
    CHECK(work([](double x, double) { return Five(0, 0, 0, x, 0); }) == Approx(0.7 * area));
    CHECK(work([](double, double y) { return Five(0, 0, 0, 0, y); }) == Approx(0.3 * area));
    CHECK(work([](double x, double y) { return Five(0, 0, 0, y, x); }) == Approx(-0.8 * area));
    CHECK(work([](double x, double y) { return Five(-y, x, 0, 0, 0); }) == Approx(0).margin(1e-14));
    // shear takes no part: w alone does no work, nor pitch with it
    CHECK(work([](double x, double y) { return Five(0, 0, x * y, 0, 0); }) ==
          Approx(0).margin(1e-14));
    CHECK(work([](double x, double) { return Five(0, 0, x, -1, 0); }) == Approx(0).margin(1e-14));
    // an uneven one: Nx = x at each point, work of u = x^2 is int 2 x^2
    Resultants uneven = Resultants::Zero(6, points);
    for (int quad = 0; quad < 8; ++quad) {
        const Eigen::Matrix2Xd at = integration_points(model, quad);
        uneven.row(0).segment(quad * at.cols(), at.cols()) = at.row(0);
    }
    CHECK(nodal_forces(model, {uneven}, 1).col(0).dot(field_of(model, [](double x, double) {
        return Five(x * x, 0, 0, 0, 0);
    })) == Approx(2 * 0.3 / 12));
}

TEST_CASE("the free strain of a sheet is held back by its biaxial stiffness at its height") {
    // isotropic: N = E alpha t / (1 - nu) a kelvin, M = N t / 2 about its lower side
    Board board;
    board.planform = rectangle_planform(1, 0.4);
    Material& sheet = board.materials["sheet"];
    sheet.isotropic = true;
    sheet.E1 = sheet.E2 = 70e9;
    sheet.nu12 = 0.3;
    sheet.G12 = sheet.G13 = sheet.G23 = 70e9 / 2.6;
    sheet.density = 2700;
    sheet.alpha1 = sheet.alpha2 = 23e-6;
    Layer& layer = board.layers.emplace_back();
    layer.name = layer.material = "sheet";
    layer.thickness = 2e-3;
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    PlateModel model = tests::grid_model(1);
    const FreeForces forces = free_forces(model, sections, &model.stiffness);
    const double N = 70e9 * 23e-6 * 2e-3 / 0.7;
    const Resultants at = forces.at(-50);
    for (Eigen::Index point = 0; point < at.cols(); ++point) {
        CHECK(forces.stack[static_cast<std::size_t>(point)] == 0);
        CHECK(at(0, point) - forces.at_zero(0, point) == Approx(-50 * N));
        CHECK(at(1, point) - forces.at_zero(1, point) == Approx(-50 * N));
        CHECK(at(3, point) - forces.at_zero(3, point) == Approx(-50 * N * 1e-3));
        CHECK(forces.per_kelvin(2, point) == Approx(0).margin(1e-9 * N));
        // the model has this sheet's stiffness now
        CHECK(model.stiffness[static_cast<std::size_t>(point)].A(0, 0) ==
              Approx(70e9 * 2e-3 / 0.91));
    }
}
