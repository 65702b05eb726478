// Closed forms of the section alone, and beams that need no more than a section.
#include <cmath>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/laminates.hpp"
#include "solver/laminate/micromechanics.hpp"
#include "tests/laminate_strain.hpp"

namespace vrid::published {

namespace {

Check exact(const std::string& name, const std::string& source, double published, double rounding,
            double value, Kind kind = Kind::judged) {
    return {name, source, published, rounding, [value] { return Ours{value, 0}; }, kind};
}

// Kaw's axis points down from the mid-plane, first ply on top: our stack upwards from z = 0 with
// plies in Kaw's order is the same laminate seen from below, z measured along Kaw's axis.
Section<double> kaw() {
    const PlyConstants<double> ply{181e9, 10.3e9, 0.28, 7.17e9, 7.17e9, 3e9, 1600, 0, 0};
    return stack_section({{ply, 0, 5e-3}, {ply, 30, 5e-3}, {ply, -45, 5e-3}});
}

void add_kaw(std::vector<Check>& checks) {
    const Section<double> s = kaw();
    const std::string source =
        "Kaw, Mechanics of Composite Materials, 2006, example 4.2 (from memory), recomputed";
    const auto add = [&](const std::string& name, const Eigen::Matrix3d& M, int i, int j,
                         double published, double rounding) {
        checks.push_back(exact("[0/30/-45] " + name, source, published, rounding, M(i, j)));
    };
    add("A11, N/m", s.A, 0, 0, 1.73924e9, 5e3);
    add("A12, N/m", s.A, 0, 1, 3.88386e8, 5e2);
    add("A16, N/m", s.A, 0, 2, 5.66337e7, 50);
    add("A26, N/m", s.A, 1, 2, -1.14064e8, 5e2);
    add("B11, N", s.B, 0, 0, -3.12883e6, 5);
    add("B12, N", s.B, 0, 1, 9.85522e5, 0.5);
    add("B16, N", s.B, 0, 2, -1.07166e6, 5);
    add("D11, N m", s.D, 0, 0, 33432.0, 0.05);
    add("D12, N m", s.D, 0, 1, 6460.98, 5e-3);
    add("D16, N m", s.D, 0, 2, -5240.29, 5e-3);
    add("D66, N m", s.D, 2, 2, 7662.78, 5e-3);
    const auto strain = tests::laminate_strain(s, {1000, 1000, 0}, {0, 0, 0});
    const std::string under = "[0/30/-45] under Nx = Ny = 1000 N/m: ";
    const std::string three =
        "Kaw, Mechanics of Composite Materials, 2006, example 4.3 (from memory), recomputed";
    checks.push_back(exact(under + "e_x", three, 3.12295e-7, 5e-13, strain.e(0)));
    checks.push_back(exact(under + "e_y", three, 3.49170e-6, 5e-12, strain.e(1)));
    checks.push_back(exact(under + "k_x, 1/m", three, 2.97144e-5, 5e-11, strain.k(0)));
    checks.push_back(exact(under + "k_y, 1/m", three, -3.28502e-4, 5e-10, strain.k(1)));
    checks.push_back(exact(under + "k_xy, 1/m", three, 4.10147e-4, 5e-10, strain.k(2)));
}

// Curvatures of a free laminate per the thermal resultants.
Eigen::Matrix<double, 6, 1> thermal(const std::vector<StackPly>& stack, double kelvin) {
    std::vector<Lamina<double>> laminae;
    for (const StackPly& one : stack) {
        laminae.push_back(lamina(one.ply, one.degrees * std::numbers::pi / 180, one.thickness));
    }
    const Section<double> s = section(laminae);
    Eigen::Matrix<double, 6, 6> ABD;
    ABD << s.A, s.B, s.B, s.D;
    Eigen::Matrix<double, 6, 1> load;
    load << s.NT, s.MT;
    return ABD.inverse() * load * kelvin;
}

// e_x half a laminate up: `thermal` measures from the bottom.
double mid_strain(const Eigen::Matrix<double, 6, 1>& strain, double z) {
    return strain(0) + z * strain(3);
}

void add_thermal(std::vector<Check>& checks) {
    const std::string bimetal =
        "Timoshenko, Analysis of bi-metal thermostats, 1925 (from memory), formula recomputed";
    const auto strip = [](double E1, double E2, double t1, double t2, double alpha2,
                          double kelvin) {
        const PlyConstants<double> one{E1, E1, 0, E1 / 2, E1 / 2, E1 / 2, 1, 0, 0};
        const PlyConstants<double> two{E2, E2, 0, E2 / 2, E2 / 2, E2 / 2, 1, alpha2, alpha2};
        // our curvature bx,x is positive where the upper layer is the longer
        return thermal({{one, 0, t1}, {two, 0, t2}}, kelvin)(3);
    };
    checks.push_back(exact("two-metal strip 200/200 GPa, 1/1 mm, 10e-6/K, 100 K: curvature, 1/m",
                           bimetal, 0.75, 5e-7, strip(200e9, 200e9, 1e-3, 1e-3, 10e-6, 100)));
    checks.push_back(exact("two-metal strip 210/72 GPa, 0.5/1.5 mm, 11e-6/K, 100 K: curvature, 1/m",
                           bimetal, 0.773860, 5e-7,
                           strip(210e9, 72e9, 0.5e-3, 1.5e-3, 11e-6, 100)));
    checks.push_back(exact("two-metal strip 200/10 GPa, 0.5/10 mm, 8e-6/K, -40 K: curvature, 1/m",
                           bimetal, -0.037948, 5e-7, strip(200e9, 10e9, 0.5e-3, 10e-3, 8e-6, -40)));
    const PlyConstants<double> ply{181e9, 10.3e9, 0.28,    7.17e9, 7.17e9,
                                   3e9,   1600,   0.02e-6, 22.5e-6};
    const std::string kaw45 =
        "Kaw, Mechanics of Composite Materials, 2006, example 4.5 (from memory), recomputed";
    const auto cross = thermal({{ply, 0, 5e-3}, {ply, 90, 5e-3}}, -75);
    // NT and MT are about the bottom
    const Section<double> hot = stack_section({{ply, 0, 5e-3}, {ply, 90, 5e-3}});
    const std::string cooled = "[0/90] 5 mm plies cooled by 75 K: ";
    checks.push_back(
        exact(cooled + "N_x of the temperature, N/m", kaw45, -1.13124e5, 0.5, -75 * hot.NT(0)));
    checks.push_back(
        exact(cooled + "N_y of the temperature, N/m", kaw45, -1.13124e5, 0.5, -75 * hot.NT(1)));
    checks.push_back(exact(cooled + "M_x of the temperature, N", kaw45, -153.778, 5e-4,
                           -75 * (hot.MT(0) - 5e-3 * hot.NT(0))));
    checks.push_back(exact(cooled + "e_x", kaw45, -3.90715e-4, 5e-10, mid_strain(cross, 5e-3)));
    checks.push_back(
        exact("[0/90] 5 mm plies cooled by 75 K: k_x, 1/m", kaw45, -0.127648, 5e-7, cross(3)));
    checks.push_back(
        exact("[0/90] 5 mm plies cooled by 75 K: k_y, 1/m", kaw45, 0.127648, 5e-7, cross(4)));
    const std::string clt =
        "classical lamination theory, recomputed; compare Hyer, Some observations "
        "on the cured shape of thin unsymmetric laminates, 1981 (from memory)";
    const auto thin = thermal({{ply, 0, 0.125e-3}, {ply, 90, 0.125e-3}}, -100);
    checks.push_back(
        exact("[0/90] 2 x 0.125 mm cooled by 100 K: k_x, 1/m", clt, -6.80787, 5e-6, thin(3)));
    checks.push_back(exact("[0/90] 2 x 0.125 mm cooled by 100 K: e_x", clt, -5.20954e-4, 5e-10,
                           mid_strain(thin, 0.125e-3)));
    const auto twice = thermal({{ply, 0, 0.25e-3}, {ply, 90, 0.25e-3}}, -100);
    checks.push_back(
        exact("[02/902] 4 x 0.125 mm cooled by 100 K: k_x, 1/m", clt, -3.40394, 5e-6, twice(3)));
    const auto angle = thermal({{ply, 45, 0.125e-3}, {ply, -45, 0.125e-3}}, -100);
    checks.push_back(
        exact("[45/-45] 2 x 0.125 mm cooled by 100 K: k_xy, 1/m", clt, -13.6157, 5e-5, angle(5)));
}

void add_micromechanics(std::vector<Check>& checks) {
    const auto solid = [](double modulus, double nu, double density, double alpha) {
        const double G = modulus / (2 * (1 + nu));
        return PlyConstants<double>{modulus, modulus, nu, G, G, G, density, alpha, alpha};
    };
    const PlyConstants<double> fibre = solid(85, 0.2, 2500, 5e-6);
    const PlyConstants<double> resin = solid(3.4, 0.3, 1200, 63e-6);
    const std::string kaw = "Kaw, Mechanics of Composite Materials, 2006, examples 3.1 to 3.6 "
                            "(from memory), recomputed";
    const std::string mixtures = "Jones, Mechanics of Composite Materials, 1975, ch. 3 (from "
                                 "memory): rule of mixtures, recomputed";
    const std::string halpin = "Halpin and Kardos, The Halpin-Tsai equations: a review, 1976 (from "
                               "memory), xi = 2 and 1, recomputed";
    const std::string schapery = "Schapery, Thermal expansion coefficients of composite materials "
                                 "based on energy principles, 1968 (from memory), recomputed";
    const auto add = [&](double fraction, const std::string& name, const std::string& source,
                         double published, double rounding, double value) {
        checks.push_back(exact("glass and epoxy, fibre volume " +
                                   std::to_string(fraction).substr(0, 4) + ": " + name,
                               source, published, rounding, value));
    };
    const auto seventy = unidirectional_ply(fibre, resin, 0.7);
    add(0.7, "density, kg/m3", kaw, 2110, 0.5, seventy.density);
    add(0.7, "alpha1, 1/K", schapery, 5.9775e-6, 5e-11, seventy.alpha1);
    add(0.7, "alpha2, 1/K", schapery, 27.395e-6, 5e-10, seventy.alpha2);
    struct Row {
        double fraction, E1, nu12, E2, G12;
    };
    for (const Row& row : {Row{0.70, 60.52, 0.230, 20.200, 6.168},
                           {0.45, 40.12, 0.255, 10.200, 3.186},
                           {0.55, 48.28, 0.245, 13.157, 4.039},
                           {0.60, 52.36, 0.240, 15.057, 4.600}}) {
        const auto ply = unidirectional_ply(fibre, resin, row.fraction);
        const std::string& source = row.fraction == 0.7 ? kaw : mixtures;
        add(row.fraction, "E1, GPa", source, row.E1, 5e-3, ply.E1);
        add(row.fraction, "nu12", source, row.nu12, 5e-4, ply.nu12);
        add(row.fraction, "E2, GPa", halpin, row.E2, 5e-4, ply.E2);
        add(row.fraction, "G12, GPa", halpin, row.G12, 5e-4, ply.G12);
    }
    checks.push_back(exact("carbon of E_T 20 GPa in resin of 3.5 GPa, volume 0.6: E2, GPa", halpin,
                           9.578947, 5e-7, halpin_tsai(20.0, 3.5, 0.6, 2.0)));
    const std::string fabric = "mass balance: t = areal mass / (fibre density x fibre volume)";
    checks.push_back(exact("300 g/m2 of glass at volume 0.50: ply thickness, mm", fabric, 0.2362,
                           5e-5, 1e3 * ply_thickness(0.3, 2540.0, 0.5)));
    checks.push_back(exact("200 g/m2 of carbon at volume 0.55: ply thickness, mm", fabric, 0.2031,
                           5e-5, 1e3 * ply_thickness(0.2, 1790.0, 0.55)));
}

double kappa_x(const std::vector<StackPly>& stack) {
    const Section<double> ours = stack_section(stack);
    return ours.S(1, 1) / stack_section(stack, 1).S(1, 1);
}

void add_shear(std::vector<Check>& checks) {
    const std::string reissner = "Reissner, The effect of transverse shear deformation on the "
                                 "bending of elastic plates, 1945";
    checks.push_back(exact("shear correction of a homogeneous plate", reissner, 5.0 / 6, 1e-12,
                           kappa_x(even_stack({0}, 1))));
    const std::string whitney = "Whitney, Shear correction factors for orthotropic laminates under "
                                "static load, 1973 (from memory): cylindrical bending";
    const std::string across = "Whitney's rule with the laminate free across, by Gauss points "
                               "through the thickness (recompute/shear_factor.py)";
    const auto add = [&](const std::string& name, const std::vector<double>& degrees,
                         double cylindrical, double free) {
        const double ours = kappa_x(even_stack(degrees, 1));
        checks.push_back(
            exact("shear correction of " + name + ", free across", across, free, 5e-8, ours));
        checks.push_back(exact("shear correction of " + name, whitney, cylindrical, 5e-6, ours,
                               Kind::other_model));
    };
    add("(0/90/0), along x", {0, 90, 0}, 0.58278, 0.5828141);
    add("(90/0/90), along x", {90, 0, 90}, 0.80278, 0.8024049);
    add("(0/90)", {0, 90}, 0.82123, 0.8209403);
    add("(0/90/90/0), along x", {0, 90, 90, 0}, 0.59518, 0.5952144);
    add("(0/90)4", {0, 90, 0, 90, 0, 90, 0, 90}, 0.63632, 0.6362982);
    const PlyConstants<double> face{40e9, 40e9, 0.3, 15e9, 15e9, 15e9, 1, 0, 0};
    const PlyConstants<double> core{1, 1, 0.3, 1, 150e6, 150e6, 1, 0, 0};
    const double t = 1e-7;
    checks.push_back(exact("thin-faced sandwich: S c / G d2",
                           "Allen, Analysis and Design of Structural "
                           "Sandwich Panels, 1969 (from memory)",
                           1, 5e-5,
                           stack_section({{face, 0, t}, {core, 0, 0.01}, {face, 0, t}}).S(1, 1) *
                               0.01 / (150e6 * std::pow(0.01 + t, 2))));
}

// A free strip bent by end moments: M / D b k = 1 - nu2, transverse curvature -nu k.
double anticlastic(int p) {
    const double nu = 0.3;
    PlateModel model = make_model(mesh_patch(rectangle(0.1, 0.02), 4, 2, 0.2), p,
                                  tests::isotropic_section(1e9, nu, 0.002));
    Loading loading = free_loading(model);
    // turning the ends about y by +- 1/2 leaves the section free to curl
    prescribe(loading, line_nodes(model, 0), comp_bx, -0.5);
    prescribe(loading, line_nodes(model, 0.1), comp_bx, 0.5);
    prescribe(loading, {tests::nearest_node(model, 0, 0), tests::nearest_node(model, 0, 0.02)},
              comp_w);
    prescribe(loading, {tests::nearest_node(model, 0.1, 0)}, comp_w);
    hold_in_plane(loading, model, 0, 0.1);
    const double energy = tests::solve_one(model, loading).stiffness; // M b k L, k L = 1
    return energy * 0.1 / (0.02 * bending_stiffness(1e9, nu, 0.002));
}

} // namespace

std::vector<Check> sections() {
    std::vector<Check> checks;
    add_kaw(checks);
    add_thermal(checks);
    add_micromechanics(checks);
    add_shear(checks);
    checks.push_back(
        {"free strip bent by end turns: M / D b k",
         "Ashwell, The anticlastic curvature of rectangular beams and plates, 1950 (from "
         "memory), small Searle parameter: 1 - nu2",
         0.91, 1e-9, [] { return at_two_degrees(3, anticlastic); }});
    return checks;
}

} // namespace vrid::published
