// Strips and coupons with closed forms, straight from the plate solver (no board file).
#include "../plate_problem.hpp"
#include "tests/solver/section_measures.hpp"
#include <algorithm>

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;
using namespace vrid::tests;

namespace {

constexpr double L = 0.3, b = 0.04, t = 0.006, E = 12e9, G = 5e9;

std::array<Eigen::Vector2d, 4> strip(double length, double width) {
    const double x = length / 2;
    const double y = width / 2;
    return {{{-x, -y}, {x, -y}, {x, y}, {-x, y}}};
}

// Poisson's ratio zero: the strip is then exactly a Timoshenko beam.
Section<double> beam_section() {
    const PlyConstants<double> ply{E, E, 0, G, G, G, 1000, 0, 0};
    return moved_to(section(std::vector<Lamina<double>>{lamina(ply, 0.0, t)}), t / 2);
}

PlyConstants<double> orthotropic(double Gxy, double Gxz) {
    return {30, 5, 0.3, Gxy, Gxz, 0.5 * Gxz, 1, 0, 0};
}

// GJ of a strip between two rigid end bars that turn the normals with them: free torsion exactly.
double torsion(const Section<double>& section, double length, double width, int p, int ny) {
    const PlateModel model = make_model(mesh_patch(strip(length, width), 2, ny), p, section);
    return torsion_stiffness(model, length);
}

} // namespace

TEST_CASE("a cantilever strip bends by F L^3 / 3 E I + F L / kappa G A (Timoshenko beam)") {
    const int p = GENERATE(2, 3, 4);
    const PlateModel model = make_model(mesh_patch(strip(L, b), 8, 2), p, beam_section());
    Loading loading = free_loading(model);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, line_nodes(model, -L / 2), c);
    }
    add_line_force(loading, model, L / 2, 1);
    const double exact = L * L * L / (3 * E * b * t * t * t / 12) + L / (5.0 / 6 * G * b * t);
    CHECK(1 / solve_one(model, loading).stiffness == Approx(exact).epsilon(p == 2 ? 1e-4 : 1e-8));
}

TEST_CASE(
    "a strip on two lines, loaded in the middle, bends by F L^3 / 48 E I + F L / 4 kappa G A") {
    const PlateModel model = make_model(mesh_patch(strip(L, b), 4, 2), 4, beam_section());
    Loading loading = free_loading(model);
    prescribe(loading, line_nodes(model, -L / 2), comp_w);
    prescribe(loading, line_nodes(model, L / 2), comp_w);
    hold_in_plane(loading, model, -L / 2, L / 2);
    add_line_force(loading, model, 0, 1);
    const double exact =
        L * L * L / (48 * E * b * t * t * t / 12) + L / (4 * (5.0 / 6) * G * b * t);
    CHECK(1 / solve_one(model, loading).stiffness == Approx(exact).epsilon(1e-8));
}

TEST_CASE(
    "torsion of a strip: G t^3 / 3 b (1 - 2 / (l b) tanh(l b / 2)), l = sqrt(12 kappa) / t, and "
    "close to St Venant's series (Timoshenko and Goodier, Theory of Elasticity, 1970, ch. 10)") {
    struct Row {
        double ratio, mindlin, st_venant; // GJ / (G b t^3), kappa = 5/6
    };
    const auto row = GENERATE(Row{3, 0.263071, 0.263317}, Row{10, 0.312251, 0.312325},
                              Row{50, 0.329117, 0.329132});
    const double width = 0.1;
    const double thickness = width / row.ratio;
    const double shear = 4e9;
    const Section<double> section = isotropic_section(shear * 2 * 1.3, 0.3, thickness);
    // the layer at the free edge is t / sqrt(10) wide: enough elements across to follow it
    const double GJ = torsion(section, 0.2, width, 6, row.ratio > 20 ? 24 : 8);
    const double scale = shear * width * std::pow(thickness, 3);
    CHECK(GJ / scale == Approx(row.mindlin).epsilon(4e-6));
    CHECK(GJ / scale == Approx(row.st_venant).epsilon(1e-3));
}

TEST_CASE(
    "torsion of orthotropic strips meets the first-order closed form; the exact value "
    "(Lekhnitskii, 1963, Theory of Elasticity of an Anisotropic Elastic Body) is as far as it is") {
    struct Row {
        double width, thickness, Gxy, Gxz, mindlin, exact;
    };
    const auto row =
        GENERATE(Row{10, 1, 5, 0.5, 13.33364, 13.34528}, Row{10, 1, 5, 0.05, 6.981880, 7.028851});
    const PlyConstants<double> ply = orthotropic(row.Gxy, row.Gxz);
    const Section<double> s = moved_to(
        section(std::vector<Lamina<double>>{lamina(ply, 0.0, row.thickness)}), row.thickness / 2);
    const double GJ = torsion(s, 20, row.width, 6, 8);
    CHECK(GJ == Approx(row.mindlin).epsilon(2e-6));
    CHECK(std::abs(GJ / row.exact - 1) < 0.0068);
}

TEST_CASE("plate-twist coupon: three corners held, the fourth loaded by P moves P a b / (4 D66) "
          "(the idea of ISO 15310), 26.3672 mm for 100 N on 150 x 150 x 4 mm at 4 GPa") {
    const double a = 0.15;
    const double h = 0.004;
    const double P = 100;
    const PlateModel model =
        make_model(mesh_patch(strip(a, a), 3, 3, 0.3), 3, isotropic_section(4e9 * 2.6, 0.3, h));
    Loading loading = free_loading(model);
    // Corner forces as the edge twisting moment P/2 that they amount to away from the corners.
    const auto edge_moment = [&](const std::vector<int>& nodes, Component c, double sign) {
        // nodal shares of a constant line load: Lobatto weights, one side element at a time
        for (const OutlineEdge& side : model.mesh.outline) {
            const int edge = model.mesh.quad_edges[static_cast<std::size_t>(side.quad)]
                                                  [static_cast<std::size_t>(side.side)];
            const std::vector<int> line = edge_nodes(model.mesh, model.numbering, edge);
            const bool here = std::all_of(line.begin(), line.end(), [&](int node) {
                return std::find(nodes.begin(), nodes.end(), node) != nodes.end();
            });
            if (!here) {
                continue;
            }
            const double length = (model.numbering.position.col(line.front()) -
                                   model.numbering.position.col(line.back()))
                                      .norm();
            const Rule rule = lobatto(model.reference.p + 1);
            for (std::size_t i = 0; i < line.size(); ++i) {
                loading.force(5 * line[i] + c) +=
                    sign * P / 2 * length / 2 * rule.weight(static_cast<Eigen::Index>(i));
            }
        }
    };
    edge_moment(outline_nodes(model, [&](double x, double) { return x > a / 2 - 1e-9; }), comp_by,
                1);
    edge_moment(outline_nodes(model, [&](double x, double) { return x < -a / 2 + 1e-9; }), comp_by,
                -1);
    edge_moment(outline_nodes(model, [&](double, double y) { return y > a / 2 - 1e-9; }), comp_bx,
                1);
    edge_moment(outline_nodes(model, [&](double, double y) { return y < -a / 2 + 1e-9; }), comp_bx,
                -1);
    for (const auto& [x, y] : {std::pair{-1, -1}, {1, -1}, {-1, 1}}) {
        prescribe(loading, {nearest_node(model, x * a / 2, y * a / 2)}, comp_w);
    }
    hold_in_plane(loading, model, -a / 2, a / 2);
    const CaseSolution solution = solve_one(model, loading);
    const double corner = solution.u(5 * nearest_node(model, a / 2, a / 2) + 2);
    CHECK(std::abs(corner) * 1e3 == Approx(26.3672).epsilon(1e-5));
}

TEST_CASE("square plates under even load: thin and thick, clamped, soft and hard supports (series "
          "solutions; thin ones in Timoshenko and Woinowsky-Krieger, 1959, tables 8 and 35)") {
    struct Row {
        double ratio;
        char support; // s soft, h hard, c clamped
        double value; // w D / q a^4
    };
    const auto row =
        GENERATE(Row{1e-4, 'c', 0.00126532}, Row{1e-4, 'h', 0.00406235}, Row{0.1, 's', 0.0046169},
                 Row{0.1, 'h', 0.0042728}, Row{0.1, 'c', 0.0015046}, Row{0.2, 's', 0.0055450},
                 Row{0.2, 'h', 0.0049043}, Row{0.2, 'c', 0.0021722});
    const double young = 1e9;
    const PlateModel model = make_model(mesh_patch({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, 8, 8), 5,
                                        isotropic_section(young, 0.3, row.ratio));
    Loading loading = free_loading(model);
    const auto everywhere = outline_nodes(model, [](double, double) { return true; });
    prescribe(loading, everywhere, comp_w);
    prescribe(loading, everywhere, comp_u);
    prescribe(loading, everywhere, comp_v);
    const auto on_x =
        outline_nodes(model, [](double x, double) { return x < 1e-9 || x > 1 - 1e-9; });
    const auto on_y =
        outline_nodes(model, [](double, double y) { return y < 1e-9 || y > 1 - 1e-9; });
    if (row.support != 's') {
        prescribe(loading, on_x, comp_by);
        prescribe(loading, on_y, comp_bx);
    }
    if (row.support == 'c') {
        prescribe(loading, on_x, comp_bx);
        prescribe(loading, on_y, comp_by);
    }
    loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    const double D = young * std::pow(row.ratio, 3) / (12 * 0.91);
    const CaseSolution solution = solve_one(model, loading);
    const double centre = solution.u(5 * nearest_node(model, 0.5, 0.5) + 2) * D;
    CAPTURE(row.ratio, row.support);
    CHECK(centre == Approx(row.value).epsilon(5e-5));
}

TEST_CASE(
    "an unsymmetric [0/90] laminate does not lock in its membrane part: w = 1.0653 (sin load), "
    "1.6980 (even load) x q a^4 / 100 E2 h^3 at a/h = 100 (first-order Navier, Reddy, 2004, "
    "Mechanics of Laminated Composite Plates and Shells, ch. 7)") {
    const int p = GENERATE(1, 2, 4);
    const PlyConstants<double> ply{25, 1, 0.25, 0.5, 0.5, 0.2, 1, 0, 0};
    std::vector<Lamina<double>> stack{lamina(ply, 0.0, 0.005),
                                      lamina(ply, std::numbers::pi / 2, 0.005)};
    Section<double> s = section(stack); // z = 0 at the bottom: B is as large as it gets
    s.S = 5.0 / 6 * Eigen::Matrix2d{{0.01 * 0.35, 0}, {0, 0.01 * 0.35}}; // the table's kappa
    const int n = p == 1 ? 48 : p == 2 ? 16 : 6;
    const PlateModel model =
        make_model(mesh_patch({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, n, n), p, moved_to(s, 0.005));
    Loading loading = free_loading(model);
    prescribe(loading, outline_nodes(model, [](double, double) { return true; }), comp_w);
    const auto on_x =
        outline_nodes(model, [](double x, double) { return x < 1e-9 || x > 1 - 1e-9; });
    const auto on_y =
        outline_nodes(model, [](double, double y) { return y < 1e-9 || y > 1 - 1e-9; });
    prescribe(loading, on_x, comp_by);
    prescribe(loading, on_x, comp_v);
    prescribe(loading, on_y, comp_bx);
    prescribe(loading, on_y, comp_u);
    using std::numbers::pi;
    Loading sine = loading;
    sine.force = pressure_forces(
        model, [](double x, double y) { return std::sin(pi * x) * std::sin(pi * y); });
    loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    const int centre = 5 * nearest_node(model, 0.5, 0.5) + 2;
    const double scale = 100 * 1e-6;
    CAPTURE(p);
    CHECK(solve_one(model, sine).u(centre) * scale == Approx(1.0653).epsilon(p == 1 ? 2e-3 : 1e-4));
    CHECK(solve_one(model, loading).u(centre) * scale ==
          Approx(1.6980).epsilon(p == 1 ? 2e-3 : 1e-4));
}

TEST_CASE(
    "turning plate, plies, supports and load together changes nothing (S turned as a tensor)") {
    const PlyConstants<double> ply{40e9, 9e9, 0.27, 4e9, 3.5e9, 3e9, 1900, 0, 0};
    std::vector<Lamina<double>> stack;
    for (const double angle : {0.2, 1.0, -0.6}) {
        stack.push_back(lamina(ply, angle, 0.002));
    }
    const Section<double> s = section(stack);
    const double turn = 0.7;
    const Eigen::Matrix2d R = rotation(turn);
    const Section<double> turned = turned_section(s, turn);
    const auto corners = strip(0.3, 0.1);
    std::array<Eigen::Vector2d, 4> turned_corners;
    std::transform(corners.begin(), corners.end(), turned_corners.begin(),
                   [&](const Eigen::Vector2d& c) -> Eigen::Vector2d { return R * c; });
    const auto solve_in = [&](const std::array<Eigen::Vector2d, 4>& at,
                              const Section<double>& section) {
        const PlateModel model = make_model(mesh_patch(at, 5, 3, 0.2), 3, section);
        Loading loading = free_loading(model);
        const Eigen::Vector2d from = at[0];
        const Eigen::Vector2d along = (at[1] - at[0]).normalized();
        std::vector<int> clamped;
        for (int node = 0; node < model.numbering.nodes; ++node) {
            if (along.dot(model.numbering.position.col(node) - from) < 1e-9) {
                clamped.push_back(node);
            }
        }
        for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
            prescribe(loading, clamped, c);
        }
        loading.force = pressure_forces(model, [&](double x, double y) {
            return 1 + 8 * along.dot(Eigen::Vector2d(x, y)); // turns with the plate
        });
        return solve_one(model, loading).stiffness;
    };
    CHECK(solve_in(turned_corners, turned) == Approx(solve_in(corners, s)).epsilon(1e-9));
}
