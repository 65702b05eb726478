// The shell on a rest shape, and far from it.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"
#include "mesh/board/error.hpp"
#include "mesh/lobatto.hpp"
#include "solver/bend_path.hpp"
#include "solver/system/elimination.hpp"
#include "tests/rest_shapes.hpp"

namespace vrid::published {

namespace {

using Eigen::Index;
using Eigen::VectorXd;
using tests::isotropic_section;
using tests::outline_nodes;

using std::numbers::pi;
constexpr std::array every{comp_u, comp_v, comp_w, comp_bx, comp_by};

std::vector<double> even(int steps) {
    return graded(steps, 0);
}

std::array<Point, 4> strip(double from, double to, double b) {
    return {{{from, -b / 2}, {to, -b / 2}, {to, b / 2}, {from, b / 2}}};
}

std::vector<int> at_x(const PlateModel& model, double x) {
    return outline_nodes(model, [=](double X, double) { return std::abs(X - x) < 1e-9; });
}

// Adds an even load on the line at x, of `size` in all, to one component.
void push_line(Loading& loading, const PlateModel& model, double x, Component c, double size) {
    std::vector<int> nodes = at_x(model, x);
    std::sort(nodes.begin(), nodes.end(), [&](int a, int b) {
        return model.numbering.position(1, a) < model.numbering.position(1, b);
    });
    const int p = model.reference.p;
    const VectorXd weight = lobatto(p + 1).weight / 2; // sides are of one length
    const auto sides = static_cast<int>(nodes.size() - 1) / p;
    for (int side = 0; side < sides; ++side) {
        for (int i = 0; i <= p; ++i) {
            const int node = nodes[static_cast<std::size_t>(side * p + i)];
            loading.force(Index(unknowns_per_node) * node + c) += size * weight(i) / sides;
        }
    }
}

// The force that holds a travel of the load's own work.
double force_at(const PlateModel& model, Loading loading, double travel) {
    const LargeMotionModel bent = large_motion_model(model, 1);
    const EliminationTree tree = elimination_order(model.numbering, {});
    Settings settings;
    settings.threads = 1;
    BendPath path(bent, tree, std::move(loading), 1, settings);
    if (const std::string why = path.go_to(travel, "check"); !why.empty()) {
        throw SolveError("bending", why);
    }
    return path.force();
}

// A strip clamped at x = 0, the end lifted by 0.301721 of its length: P L^2 / EI.
double elastica(int p) {
    const double L = 1;
    const double b = 0.02;
    const double h = 0.001;
    const double E = 1e9;
    const PlateModel model =
        make_model(graded_patch(strip(0, L, b), even(10), even(1)), p, isotropic_section(E, 0, h));
    Loading loading = free_loading(model);
    for (const Component c : every) {
        prescribe(loading, at_x(model, 0), c);
    }
    push_line(loading, model, L, comp_w, 1);
    return force_at(model, loading, 0.301721 * L) * L * L / (E * b * h * h * h / 12);
}

// A pinned arch z = a0 r sin, r = h / sqrt 3, pushed down by q sin till its rise is a r: q L^4 over
// EI pi^4 r.
double arch(int p, double a) {
    const double L = 1;
    const double b = 0.02;
    const double h = 1e-3;
    const double E = 1e11;
    const double r = h / std::sqrt(3.0);
    const double a0 = 2;
    PlateModel model =
        make_model(graded_patch(strip(0, L, b), even(10), even(1)), p, isotropic_section(E, 0, h));
    RestShape shape;
    constexpr int pieces = 400;
    for (int i = 0; i <= pieces; ++i) {
        const double x = L * i / pieces;
        shape.height.x.push_back(x);
        shape.height.value.push_back(a0 * r * std::sin(pi * x / L));
        shape.slopes.push_back(a0 * r * pi / L * std::cos(pi * x / L));
    }
    model.rest = std::make_shared<const RestShape>(std::move(shape));
    Loading loading = free_loading(model);
    for (const double x : {0.0, L}) {
        for (const Component c : {comp_u, comp_v, comp_w}) {
            prescribe(loading, at_x(model, x), c);
        }
    }
    loading.force = pressure_forces(model, [=](double x, double) { return -std::sin(pi * x / L); });
    const double travel = (a0 - a) * r * L * b / 2; // integral of the load times w
    const double q = force_at(model, loading, travel) * b;
    return q * std::pow(L, 4) / (E * b * h * h * h / 12 * std::pow(pi, 4) * r);
}

// A ring's segment between end couples M, long edges free: M over D b times the change of
// curvature, over the middle quarter of its length.
double ring(int p, double beta) {
    const double b = 1;
    const double h = b / 100;
    const double R = b * b / (beta * h);
    const double L = 12 * b;
    const double E = 1e9;
    const double nu = 0.3;
    PlateModel model = make_model(graded_patch(strip(-L / 2, L / 2, b), even(24), even(4)), p,
                                  isotropic_section(E, nu, h));
    model.rest = tests::arc(R, -L / 2, L / 2);
    Loading loading = free_loading(model);
    for (const Component c : every) {
        prescribe(loading, {tests::nearest_node(model, 0, 0)}, c);
    }
    prescribe(loading, {tests::nearest_node(model, L / 4, 0)}, comp_v);
    push_line(loading, model, L / 2, comp_bx, 1);
    push_line(loading, model, -L / 2, comp_bx, -1);
    const VectorXd u = tests::solve_one(model, loading).u;
    const double x = 1.5 * b; // mesh lines every half b
    double turn = 0;
    for (Index node = 0; node < model.numbering.nodes; ++node) {
        if (std::abs(model.numbering.position(1, node)) < 1e-9) {
            for (const double sign : {1.0, -1.0}) {
                if (std::abs(model.numbering.position(0, node) - sign * x) < 1e-9) {
                    turn += sign * u(unknowns_per_node * node + comp_bx);
                }
            }
        }
    }
    return 1 / (bending_stiffness(E, nu, h) * b * turn / (2 * x));
}

// Roof on two diaphragms under its weight: w at the middle of a free edge.
double roof(int p, bool held) {
    const double R = 25;
    const double half = R * 40 * pi / 180;
    PlateModel model =
        make_model(graded_patch({{{-half, -25}, {half, -25}, {half, 25}, {-half, 25}}},
                                graded(6, 2, 0.3), graded(6, 2, 0.3)),
                   p, isotropic_section(4.32e8, 0, 0.25));
    model.rest = tests::arc(-R, -half, half);
    Loading loading = free_loading(model);
    const std::vector<int> ends =
        outline_nodes(model, [](double, double y) { return std::abs(std::abs(y) - 25) < 1e-9; });
    for (const Component c : {comp_u, comp_w}) {
        prescribe(loading, ends, c);
    }
    if (held) {
        prescribe(loading, ends, comp_bx);
    }
    prescribe(loading, {tests::nearest_node(model, 0, 0)}, comp_v);
    loading.force = pressure_forces(model, [](double, double) { return -90; });
    const VectorXd u = tests::solve_one(model, loading).u;
    return -u(Index(unknowns_per_node) * tests::nearest_node(model, half, 0) + comp_w);
}

Check check(const std::string& name, const std::string& source, double published, double rounding,
            const std::function<double(int)>& ours, int degree = 4) {
    return {name, source, published, rounding, [=] { return at_two_degrees(degree, ours); }};
}

} // namespace

std::vector<Check> curved() {
    const std::string beam =
        "elastica by elliptic integrals, recomputed; compare Bisshopp, Drucker, "
        "Large deflection of cantilever beams, 1945 (from memory)";
    const std::string shallow = "shallow arch, one sine: q = (a0 - a) + (a0^2 - a^2) a, after "
                                "Timoshenko, Gere, Theory of Elastic Stability, 1961 (from memory)";
    const std::string cylinder =
        "axis-symmetric cylinder after Timoshenko and Woinowsky-Krieger, Theory of Plates and "
        "Shells, 1959 (from memory), M/(D b dkap) = 1 - nu^2 (2/th) "
        "(cosh th - cos th)/(sinh th + sin th), th = (3 (1 - nu^2))^(1/4) "
        "sqrt beta; compare Ashwell 1950 (from memory)";
    const std::string lo = "Scordelis, Lo, Computer analysis of cylindrical shells, 1964 (from "
                           "memory); recomputed with transverse shear";
    return {
        check("cantilever lifted by 0.301721 L: P L^2/EI", beam, 1.00000, 5e-6, elastica),
        check("pinned arch of rise 2 r pushed to 1.5 r: q L^4/(EI pi^4 r)", shallow, 3.12500, 1e-4,
              [](int p) { return arch(p, 1.5); }),
        check("the same pushed to 1.2 r", shallow, 3.87200, 1e-4,
              [](int p) { return arch(p, 1.2); }),
        check("ring segment in pure bending, beta 1, nu 0.3: M/(D b dkap)", cylinder, 0.911336,
              4e-5, [](int p) { return ring(p, 1); }),
        check("the same, beta 5", cylinder, 0.932163, 4e-5, [](int p) { return ring(p, 5); }),
        check(
            "roof on diaphragms, director free there: w at the middle of the free edge", lo,
            0.302033, 5e-7, [](int p) { return roof(p, false); }, 5),
        check(
            "the same, director held", lo, 0.301463, 5e-7, [](int p) { return roof(p, true); }, 5)};
}

} // namespace vrid::published
