// Means over discs where a plate's stress has no bound.
#include "solver/strength/discs.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/lobatto.hpp"
#include "mesh/mesher.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/strength/point_laminate.hpp"
#include "solver/system/loading.hpp"

using namespace vrid;

namespace {

constexpr double length = 0.3, width = 0.25, thickness = 8e-3;

// A plate of 8 mm: Young's modulus 70 GPa, nu 0.3.
Board plate() {
    Board board;
    board.planform = rectangle_planform(length, width);
    Material material;
    material.name = "sheet";
    material.isotropic = true;
    material.E1 = material.E2 = 70e9;
    material.nu12 = 0.3;
    material.G12 = material.G13 = material.G23 = 70e9 / 2.6;
    material.density = 2700;
    board.materials["sheet"] = material;
    Layer layer;
    layer.name = "sheet";
    layer.material = "sheet";
    layer.thickness = thickness;
    board.layers = {layer};
    return board;
}

struct Cantilever {
    Board board = plate();
    Layup<double> layup = make_layup<double>(board);
    SectionCache sections{layup};
    PlateModel model;
    Eigen::VectorXd u;
    StrainField strain;
};

// Clamped at its tail end, 1 kN over its nose end; `corner`: a line that far from the clamp and
// from the sides.
std::unique_ptr<Cantilever> cantilever(int degree, double corner, double size) {
    auto made = std::make_unique<Cantilever>();
    MeshOptions options;
    options.max_size = size;
    if (corner > 0) {
        options.stations = {-length / 2 + corner};
        options.outline_bands = {corner};
    }
    made->model = make_model(mesh_planform(made->board, options), degree, made->sections);
    Loading loading = free_loading(made->model);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, line_nodes(made->model, -length / 2), c);
    }
    add_line_force(loading, made->model, length / 2, 1000);
    Seconds seconds;
    const EliminationTree tree = elimination_order(made->model.numbering, {});
    made->u = solve_loadings(made->model, {loading}, tree, 1, seconds).front().u;
    made->strain = strain_field(made->model, made->u);
    return made;
}

double surface_stress(const Eigen::Matrix<double, 8, 1>& strain) { // x, at the top [MPa]
    const Eigen::Vector3d top = strain.head<3>() + thickness * strain.segment<3>(3);
    return 70e9 / (1 - 0.09) * (top(0) + 0.3 * top(1)) / 1e6;
}

double mean_stress(Cantilever& board, double y) {
    DiscMaker maker(board.model.mesh, board.sections);
    const auto disc = maker.at({-length / 2, y});
    REQUIRE(disc);
    CHECK(disc->diameter == Approx(thickness));
    const std::vector<char> none(board.model.mesh.quads.size(), 0);
    return std::abs(surface_stress(*mean_strain(*disc, board.strain, none)));
}

// What the element itself gives at the corner.
double raw_stress(const Cantilever& board) {
    const Eigen::Vector2d corner(-length / 2, width / 2);
    const Eigen::MatrixXd to_points =
        geometry_to_points(board.model.mesh, lobatto(strain_points).point);
    for (std::size_t quad = 0; quad < board.strain.size(); ++quad) {
        const Eigen::Matrix2Xd at =
            quad_points(board.model.mesh, static_cast<int>(quad), to_points);
        for (Eigen::Index i = 0; i < at.cols(); ++i) {
            if ((at.col(i) - corner).norm() < 1e-9) {
                return std::abs(surface_stress(board.strain[quad].col(i)));
            }
        }
    }
    return 0;
}

} // namespace

TEST_CASE("at the corner of a clamp the plate's stress grows with the degree, the disc's mean does "
          "not") {
    std::vector<double> raw;
    for (const int degree : {3, 4, 5}) {
        const auto board = cantilever(degree, 4e-3, 40e-3);
        CAPTURE(degree);
        raw.push_back(raw_stress(*board));
        // recomputed by an independent program: 48.4 MPa, in the middle of the clamp 125.75
        CHECK(mean_stress(*board, width / 2) == Approx(48.4).epsilon(0.01));
        CHECK(mean_stress(*board, -width / 2) == Approx(48.4).epsilon(0.01));
        CHECK(mean_stress(*board, 0) == Approx(125.75).epsilon(0.01));
    }
    CHECK(raw[2] > raw[1]);
    CHECK(raw[1] > raw[0]);
    CHECK(raw[2] > 1.15 * raw[0]);
}

TEST_CASE("a disc is cut at the outline, its weights reproduce a linear strain's mean") {
    Cantilever board;
    MeshOptions options;
    options.max_size = 30e-3;
    board.model = make_model(mesh_planform(board.board, options), 2, board.sections);
    Eigen::VectorXd u = Eigen::VectorXd::Zero(board.model.unknowns());
    for (int node = 0; node < board.model.numbering.nodes; ++node) { // e_x = x, e_y = 3
        const Eigen::Vector2d p = board.model.numbering.position.col(node);
        u(5 * node) = p.x() * p.x() / 2;
        u(5 * node + 1) = 3 * p.y();
    }
    const StrainField strain = strain_field(board.model, u);
    DiscMaker maker(board.model.mesh, board.sections);
    std::vector<char> held(board.model.mesh.quads.size(), 0);
    const auto inside = maker.at({0.0123, 0.04});
    REQUIRE(inside);
    CHECK((*mean_strain(*inside, strain, held))(0) == Approx(0.0123));
    const auto half = maker.at({length / 2, 0.0});
    REQUIRE(half); // centroid of half a disc: 4 r / 3 pi
    const double r = thickness / 2;
    CHECK((*mean_strain(*half, strain, held))(0) ==
          Approx(length / 2 - 4 * r / (3 * 3.14159265)).epsilon(1e-3));
    CHECK((*mean_strain(*half, strain, held))(1) == Approx(3));
    CHECK_FALSE(maker.at({length / 2 + 1e-3, 0.0}));
    std::fill(held.begin(), held.end(), 1);
    CHECK_FALSE(mean_strain(*half, strain, held));
}
