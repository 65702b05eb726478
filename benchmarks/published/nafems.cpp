// NAFEMS R0031: the laminated strip and the sandwich plate.
#include "benchmarks/published/check.hpp"
#include "benchmarks/published/laminates.hpp"

namespace vrid::published {

namespace {

// [0/90/0/90/0/90/0], 0.1 mm, middle 0.4 mm; mm, N, MPa
Section<double> strip_section() {
    const PlyConstants<double> ply{100e3, 5e3, 0.4, 3e3, 3e3, 2e3, 1, 0, 0};
    std::vector<StackPly> stack;
    for (int k = 0; k < 7; ++k) {
        stack.push_back({ply, k % 2 == 0 ? 0.0 : 90.0, k == 3 ? 0.4 : 0.1});
    }
    return stack_section(stack);
}

struct StripAnswer {
    double w, sigma;
};

// 50 x 10 mm, supports 10 mm from the ends, 100 N on the middle line.
StripAnswer strip(int p) {
    PlateModel model = make_model(graded_patch({{{-25, -5}, {25, -5}, {25, 5}, {-25, 5}}},
                                               {0, 0.1, 0.18, 0.2, 0.22, 0.3, 0.4, 0.48, 0.5, 0.52,
                                                0.6, 0.7, 0.78, 0.8, 0.82, 0.9, 1},
                                               graded(2, 3, 0.3)),
                                  p, strip_section());
    Loading loading = free_loading(model);
    prescribe(loading, line_nodes(model, -15), comp_w);
    prescribe(loading, line_nodes(model, 15), comp_w);
    hold_in_plane(loading, model, -25, 25);
    add_line_force(loading, model, 0, -100);
    const Bent bending = bent(std::move(model), loading);
    // stress at the bottom of the lowest ply under the moments there (B = 0)
    const Eigen::Vector3d k = bending.model.stiffness.front().D.inverse() * bending.moment(0, 0);
    const PlyConstants<double> ply{100e3, 5e3, 0.4, 3e3, 3e3, 2e3, 1, 0, 0};
    return {bending.w(0, 0), -0.5 * (Qbar(ply, 0.0).row(0) * k)(0)};
}

// 10 x 10 in sandwich, 100 psi, hard supports; psi and in.
double sandwich(int p, int what, bool thin_faced) {
    const PlyConstants<double> face{10e6, 4e6, 0.3, 1.875e6, 1.875e6, 1.875e6, 1, 0, 0};
    const PlyConstants<double> core{1, 1, 0, 0.5, 3e4, 1.2e4, 1, 0, 0};
    Section<double> s = stack_section({{face, 0, 0.028}, {core, 0, 0.75}, {face, 0, 0.028}});
    if (thin_faced) { // S = G d2 / c
        s.S = Eigen::Vector2d(1.2e4, 3e4).asDiagonal();
        s.S *= 0.778 * 0.778 / 0.75;
    }
    PlateModel model =
        make_model(graded_patch(rectangle(10, 10), graded(2, 1, 0.3), graded(2, 1, 0.3)), p, s);
    Loading loading = free_loading(model);
    support(loading, model, Support::hard, [](double, double) { return true; });
    loading.force = pressure_forces(model, [](double, double) { return 100.0; });
    const Bent plate = bent(std::move(model), loading);
    if (what == 0) {
        return plate.w(5, 5);
    }
    const double at = what == 3 ? 2.5 : 5;
    const Eigen::Vector3d k = plate.model.stiffness.front().D.inverse() * plate.moment(at, at);
    return 0.389 * (Qbar(face, 0.0) * k)(what - 1);
}

} // namespace

std::vector<Check> nafems() {
    const std::string one =
        "Hardy, Composite Benchmarks, NAFEMS R0031, 2001, test 1 (public copies)";
    const std::string three =
        "Hardy, Composite Benchmarks, NAFEMS R0031, 2001, test 3 (public copies)";
    const std::string navier = "Hardy, Composite Benchmarks, NAFEMS R0031, 2001, test 3 by the "
                               "first-order Navier series with S = G d2 "
                               "/ c (recompute/navier.py)";
    std::vector<Check> checks{
        {"laminated strip on two lines: w at the centre, mm", one, -1.06, 5e-3,
         [] { return at_two_degrees(5, [](int p) { return strip(p).w; }); }},
        {"laminated strip on two lines: stress at the bottom, MPa", one, 683.9, 0.05,
         [] { return at_two_degrees(5, [](int p) { return strip(p).sigma; }); },
         Kind::other_model}};
    const std::vector<std::pair<double, double>> series{
        {0.122196, 5e-7}, {34345.5, 0.05}, {13412.6, 0.05}, {-5078.80, 5e-3}};
    const std::vector<std::pair<double, double>> printed{
        {0.123, 5e-4}, {34449, 0.5}, {13350, 0.5}, {-5067.5, 0.05}};
    const std::vector<std::string> names{"w at the centre, in", "face stress x at the centre, psi",
                                         "face stress y at the centre, psi",
                                         "face shear stress at the quarter point, psi"};
    for (int what = 0; what < 4; ++what) {
        const auto i = static_cast<std::size_t>(what);
        const auto ours = [what](bool thin_faced) {
            return [=] {
                const auto at = [&](int p) { return sandwich(p, what, thin_faced); };
                return what == 0 ? at_two_degrees(6, at) : at_three_degrees(6, at);
            };
        };
        checks.push_back({"sandwich plate with S = G d2 / c: " + names[i], navier, series[i].first,
                          series[i].second, ours(true)});
        // our own S lets the faces carry shear and the core bend: small differences of the model
        checks.push_back({"sandwich plate: " + names[i] + ", S = G d2 / c in the source", navier,
                          series[i].first, series[i].second, ours(false), Kind::other_model});
        checks.push_back({"sandwich plate: " + names[i] + ", printed target", three,
                          printed[i].first, printed[i].second, ours(false), Kind::other_model});
    }
    return checks;
}

} // namespace vrid::published
