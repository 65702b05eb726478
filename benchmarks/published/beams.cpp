// Strips that bend as beams or as wide plates: sandwich, taper, cylindrical bending.
#include <cmath>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/laminates.hpp"

namespace vrid::published {

namespace {

using std::numbers::pi;

void hold_everywhere(Loading& loading, const PlateModel& model,
                     std::initializer_list<Component> components) {
    for (int node = 0; node < model.numbering.nodes; ++node) {
        for (const Component c : components) {
            prescribe(loading, {node}, c);
        }
    }
}

// Allen's sandwich beam on two supports, 1 kN in the middle: m, N. Faces without Poisson's ratio.
double sandwich_beam(bool thin_faced, int p) {
    const PlyConstants<double> face{40e9, 40e9, 0, 15e9, 15e9, 15e9, 1, 0, 0};
    const PlyConstants<double> core{1, 1, 0, 150e6, 150e6, 150e6, 1, 0, 0};
    Section<double> s = stack_section({{face, 0, 1e-3}, {core, 0, 10e-3}, {face, 0, 1e-3}});
    if (thin_faced) { // S = G d2 / c
        s.S = Eigen::Matrix2d::Identity() * 150e6 * 11e-3 * 11e-3 / 10e-3;
    }
    const double L = 0.5;
    PlateModel model = make_model(
        mesh_patch({{{-L / 2, 0}, {L / 2, 0}, {L / 2, 0.05}, {-L / 2, 0.05}}}, 8, 1), p, s);
    Loading loading = free_loading(model);
    prescribe(loading, line_nodes(model, -L / 2), comp_w);
    prescribe(loading, line_nodes(model, L / 2), comp_w);
    hold_everywhere(loading, model, {comp_v, comp_by});
    prescribe(loading, line_nodes(model, -L / 2), comp_u);
    add_line_force(loading, model, 0, 1000);
    return 1e3 * bent(std::move(model), loading).w(0, 0.025);
}

// Cantilever of unit length whose thickness falls linearly from h0 at the clamp to r h0, nu = 0:
// w at the tip over that of the even one without shear.
double tapered(double r, int p) {
    const double h0 = 2e-4;
    PlateModel model =
        make_model(mesh_patch(rectangle(1, 0.2), 8, 1), p, tests::isotropic_section(1e12, 0, h0));
    const auto m = static_cast<std::size_t>(model.reference.m);
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        const Eigen::Matrix2Xd at = integration_points(model, static_cast<int>(quad));
        for (std::size_t k = 0; k < m; ++k) {
            const double x = at(0, static_cast<Eigen::Index>(k));
            const auto s = tests::isotropic_section(1e12, 0, h0 * (1 - (1 - r) * x));
            model.stiffness[quad * m + k] = {s.A, s.B, s.D, s.S};
        }
    }
    Loading loading = free_loading(model);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, line_nodes(model, 0), c);
    }
    add_line_force(loading, model, 1, 1);
    const double even = 1 / (3 * 0.2 * bending_stiffness(1e12, 0, h0));
    return bent(std::move(model), loading).w(1, 0.1) / even;
}

// Wide plate of span 1 under a sine load: wbar = 100 w E2 h3 / q a4.
double bent_to_cylinder(const std::vector<double>& degrees, double ratio, int p) {
    const double h = 1 / ratio;
    PlateModel model =
        make_model(mesh_patch(rectangle(1, 0.1), 6, 1), p, stack_section(even_stack(degrees, h)));
    Loading loading = free_loading(model);
    hold_everywhere(loading, model, {comp_v, comp_by});
    prescribe(loading, line_nodes(model, 0), comp_w);
    prescribe(loading, line_nodes(model, 1), comp_w);
    prescribe(loading, line_nodes(model, 0), comp_u);
    loading.force = pressure_forces(model, [](double x, double) { return std::sin(pi * x); });
    return 100 * std::pow(h, 3) * bent(std::move(model), loading).w(0.5, 0.05);
}

void add_cylindrical(std::vector<Check>& checks) {
    struct Row {
        std::string name;
        std::vector<double> degrees;
        double ratio, published;
    };
    const std::vector<double> tri{0, 90, 0};
    for (const Row& row : {Row{"(0/90/0)", tri, 4, 2.8872},
                           {"(0/90/0)", tri, 10, 0.9316},
                           {"(0/90/0)", tri, 20, 0.6173},
                           {"(0/90/0)", tri, 50, 0.5270},
                           {"[0]", {0}, 4, 1.9490},
                           {"[0]", {0}, 10, 0.7319},
                           {"[0]", {0}, 50, 0.5012},
                           {"(0/90)", {0, 90}, 4, 4.6953},
                           {"(0/90)", {0, 90}, 10, 2.9538},
                           {"(0/90)", {0, 90}, 50, 2.6323}}) {
        checks.push_back(
            {row.name + " bent to a cylinder, a/h = " +
                 std::to_string(static_cast<int>(row.ratio)) + ", wbar, 3-D",
             "Pagano, Exact solutions for composite laminates in cylindrical bending, 1969 (from "
             "memory), recomputed",
             row.published, 5e-5,
             [row] {
                 return at_two_degrees(
                     5, [&](int p) { return bent_to_cylinder(row.degrees, row.ratio, p); });
             },
             Kind::other_model});
    }
}

} // namespace

std::vector<Check> beams() {
    const std::string allen = "Allen, Analysis and Design of Structural Sandwich Panels, 1969 "
                              "(from memory): P L3 / 48 D + P L / 4 S, S = G b d2 / c, recomputed";
    std::vector<Check> checks{
        {"sandwich beam 500 mm with S = G b d2 / c, 1 kN in the middle: w, mm", allen, 22.8403,
         5e-5, [] { return at_two_degrees(5, [](int p) { return sandwich_beam(true, p); }); }},
        {"sandwich beam 500 mm, 1 kN in the middle: w, mm, S = G b d2 / c in the source", allen,
         22.8403, 5e-5,
         [] { return at_two_degrees(5, [](int p) { return sandwich_beam(false, p); }); },
         Kind::other_model}};
    for (const auto& [r, published] :
         {std::pair{1.0, 1.0}, {0.75, 1.234958}, {0.5, 1.635532}, {0.25, 2.524760}}) {
        const double share = r;
        checks.push_back({"cantilever tapered to " + std::to_string(r).substr(0, 4) +
                              " of its thickness: tip w over that of the even one",
                          "Timoshenko, Strength of Materials, 1955, beam of variable section (from "
                          "memory): integral of x2 / D, recomputed",
                          published, 5e-7, [share] {
                              return at_two_degrees(6, [&](int p) { return tapered(share, p); });
                          }});
    }
    add_cylindrical(checks);
    return checks;
}

} // namespace vrid::published
