#include "solver/element/plate.hpp"

#include <random>

#include <catch2/catch.hpp>

#include "solver/system/dense_solve.hpp"
#include "solver/system/mass_matrix.hpp"
#include "tests/plate_problem.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

const std::array<Eigen::Vector2d, 4> skew_quad{{{0.0, 0.0}, {1.1, 0.1}, {1.25, 0.95}, {-0.1, 0.8}}};

Section<double> unsymmetric_laminate(double thickness) {
    const PlyConstants<double> ply{40e9, 9e9, 0.27, 4e9, 3.5e9, 3e9, 1900, 0, 0};
    std::vector<Lamina<double>> stack;
    for (const double angle : {0.2, 1.0, -0.6}) {
        stack.push_back(lamina(ply, angle, thickness / 3));
    }
    return section(stack);
}

int zero_modes(const Eigen::MatrixXd& K) {
    const Eigen::VectorXd values = symmetric_eigen(K).values;
    const double small = 1e-10 * values.maxCoeff();
    return static_cast<int>((values.array().abs() < small).count());
}

} // namespace

TEST_CASE("K has exactly six zero modes on distorted quadrilaterals at every degree") {
    const int p = GENERATE(1, 2, 3, 4, 5, 6);
    const int n = p == 1 ? 3 : 1; // a lone four-node element has more: it is the mesh that counts
    const PlateModel model =
        make_model(mesh_patch(skew_quad, n, n, 0.3), p, unsymmetric_laminate(0.3));
    CAPTURE(p);
    CHECK(zero_modes(assembled(model)) == 6);
}

TEST_CASE("the plate part of K has exactly three zero modes at every degree") {
    const int p = GENERATE(1, 2, 3, 4, 5, 6);
    const int n = p <= 2 ? 3 : 1;
    const PlateModel model =
        make_model(mesh_patch(skew_quad, n, n, 0.3), p, isotropic_section(1, 0.3, 0.3));
    const Eigen::MatrixXd K = assembled(model);
    const Eigen::Index nodes = model.numbering.nodes;
    Eigen::MatrixXd plate(3 * nodes, 3 * nodes);
    for (Eigen::Index j = 0; j < nodes; ++j) {
        for (Eigen::Index i = 0; i < nodes; ++i) {
            plate.block<3, 3>(3 * i, 3 * j) = K.block<3, 3>(5 * i + 2, 5 * j + 2);
        }
    }
    CAPTURE(p);
    CHECK(zero_modes(plate) == 3);
}

// Constant membrane strain and curvature; w is then quadratic and the shear zero. (Constant shear
// alone is no equilibrium: it needs moments that change along the plate.)
TEST_CASE("patch test: every constant strain state is exact on distorted meshes at every degree") {
    const int p = GENERATE(1, 2, 3, 4, 5, 6);
    const int state = GENERATE(range(0, 6));
    const PlateModel model =
        make_model(mesh_patch(skew_quad, 3, 3, 0.35), p, unsymmetric_laminate(0.05));
    Eigen::Matrix<double, 8, 1> strain = Eigen::Matrix<double, 8, 1>::Zero();
    strain(state) = 1e-3;
    const auto exact = [&](double x, double y) {
        Eigen::Matrix<double, 5, 1> m;
        m << strain(0) * x + strain(2) * y, strain(1) * y,
            -(strain(3) * x * x + strain(4) * y * y + strain(5) * x * y) / 2,
            strain(3) * x + strain(5) * y / 2, strain(4) * y + strain(5) * x / 2;
        return m;
    };
    // At degree 1 a quadratic w is not in the space, yet the tied shear makes nodal values exact.
    Loading loading = free_loading(model);
    const auto everywhere = [](double, double) { return true; };
    for (const int node : outline_nodes(model, everywhere)) {
        const auto m = exact(model.numbering.position(0, node), model.numbering.position(1, node));
        for (int c = 0; c < 5; ++c) {
            prescribe(loading, {node}, static_cast<Component>(c), m(c));
        }
    }
    const CaseSolution solution = solve_one(model, loading);
    double error = 0;
    double size = 0;
    for (int node = 0; node < model.numbering.nodes; ++node) {
        const auto m = exact(model.numbering.position(0, node), model.numbering.position(1, node));
        error = std::max(error, (solution.u.segment<5>(5 * node) - m).cwiseAbs().maxCoeff());
        size = std::max(size, m.cwiseAbs().maxCoeff());
    }
    CAPTURE(p, state);
    CHECK(error < 1e-9 * size);
    // and the energy is that of the constant state
    const Section<double> s = unsymmetric_laminate(0.05);
    const PlateStiffness c{s.A, s.B, s.D, s.S};
    const double density = strain.dot(element_resultants({&c, 1}, strain).col(0));
    double area = 0;
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        area += element_tables(model.reference, element_nodes(model, static_cast<int>(quad)))
                    .weight.sum();
    }
    CHECK(solution.stiffness == Approx(density * area).epsilon(1e-9));
}

TEST_CASE("the forces of the strains are K_e times the motion") {
    const int p = GENERATE(1, 3, 5);
    const PlateModel model =
        make_model(mesh_patch(skew_quad, 2, 2, 0.2), p, unsymmetric_laminate(0.1));
    const Eigen::VectorXd u = Eigen::VectorXd::Random(model.unknowns());
    const Eigen::VectorXd Ku = assembled(model) * u;
    CHECK((internal_forces(model, u) - Ku).norm() < 1e-12 * Ku.norm());
}

TEST_CASE("the consistent mass of a turning rigid plate is its moment of inertia") {
    const double t = 0.02;
    const PlateModel model = make_model(mesh_patch({{{0, 0}, {2, 0}, {2, 1}, {0, 1}}}, 2, 2, 0.3),
                                        3, isotropic_section(1e9, 0.3, t));
    // w = y, by = -1: int rho (y^2 t + t^3 / 12)
    Eigen::MatrixXd v = Eigen::MatrixXd::Zero(model.unknowns(), 1);
    for (Eigen::Index node = 0; node < model.numbering.nodes; ++node) {
        v(5 * node + 2, 0) = model.numbering.position(1, node);
        v(5 * node + 4, 0) = -1;
    }
    const double energy = v.col(0).dot(times(mass_matrix(model), v).col(0));
    CHECK(energy == Approx(1000 * 2 * (t / 3 + t * t * t / 12)).epsilon(1e-12));
}

TEST_CASE(
    "a clamped thin square plate does not lock: w = 0.00126532 q a^4 / D (Taylor and Govindjee, "
    "2004, Comm. Num. Meth. Engng 20) at thickness / span = 1e-4") {
    const int p = GENERATE(1, 2, 3, 4);
    const int n = p == 1 ? 32 : 16 / p;
    const double t = 1e-4;
    const double E = 1e9;
    const double D = E * t * t * t / (12 * (1 - 0.09));
    const PlateModel model = make_model(mesh_patch({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, n, n, 0.3),
                                        p, isotropic_section(E, 0.3, t));
    Loading loading = free_loading(model);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, outline_nodes(model, [](double, double) { return true; }), c);
    }
    loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    const CaseSolution solution = solve_one(model, loading);
    CAPTURE(p);
    // The centre of a distorted mesh is no node: compare the work with a fine even mesh of degree
    // 6, itself checked at the centre. A locked plate would be out by all of it.
    const PlateModel fine = make_model(mesh_patch({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, 6, 6), 6,
                                       isotropic_section(E, 0.3, t));
    Loading fine_loading = free_loading(fine);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(fine_loading, outline_nodes(fine, [](double, double) { return true; }), c);
    }
    fine_loading.force = pressure_forces(fine, [](double, double) { return 1.0; });
    const CaseSolution reference = solve_one(fine, fine_loading);
    CHECK(reference.u(5 * nearest_node(fine, 0.5, 0.5) + 2) * D ==
          Approx(0.00126532).epsilon(1e-5));
    CHECK(solution.stiffness == Approx(reference.stiffness).epsilon(p == 1 ? 0.01 : 0.003));
}
