#include "benchmarks/published/laminates.hpp"

#include <cmath>
#include <numbers>

namespace vrid::published {

std::vector<StackPly> even_stack(const std::vector<double>& degrees, double h) {
    std::vector<StackPly> stack;
    for (const double angle : degrees) {
        stack.push_back({pagano_ply, angle, h / static_cast<double>(degrees.size())});
    }
    return stack;
}

std::vector<StackPly> pagano_sandwich(double h) {
    const PlyConstants<double> core{0.04, 0.04, 0.25, 0.016, 0.06, 0.06, 1, 0, 0};
    return {{pagano_ply, 0, 0.1 * h}, {core, 0, 0.8 * h}, {pagano_ply, 0, 0.1 * h}};
}

Section<double> stack_section(const std::vector<StackPly>& stack, double kappa) {
    std::vector<Lamina<double>> laminae;
    Eigen::Matrix2d shear = Eigen::Matrix2d::Zero();
    double h = 0;
    for (const StackPly& one : stack) {
        laminae.push_back(lamina(one.ply, one.degrees * std::numbers::pi / 180, one.thickness));
        shear += laminae.back().compliance.inverse() * one.thickness;
        h += one.thickness;
    }
    Section<double> s = tests::moved_to(section(laminae), h / 2);
    if (kappa > 0) {
        s.S = kappa * shear;
    }
    return s;
}

Bent bent_laminate(const Section<double>& section, double a, double b, bool angle_ply,
                   const Pressure& pressure, int degree) {
    const std::vector<double> lines = graded(4, 1, 0.3);
    PlateModel model = make_model(graded_patch(rectangle(a, b), lines, lines), degree, section);
    Loading loading = free_loading(model);
    const auto on_x = tests::outline_nodes(
        model, [&](double x, double) { return x < 1e-9 * a || x > a * (1 - 1e-9); });
    const auto on_y = tests::outline_nodes(
        model, [&](double, double y) { return y < 1e-9 * b || y > b * (1 - 1e-9); });
    prescribe(loading, on_x, comp_w);
    prescribe(loading, on_y, comp_w);
    prescribe(loading, on_x, comp_by);
    prescribe(loading, on_y, comp_bx);
    prescribe(loading, on_x, angle_ply ? comp_u : comp_v);
    prescribe(loading, on_y, angle_ply ? comp_v : comp_u);
    loading.force = pressure_forces(model, pressure);
    return bent(std::move(model), loading);
}

double laminate_deflection(const Section<double>& section, double a, double b, bool angle_ply,
                           const Pressure& pressure, int degree) {
    return bent_laminate(section, a, b, angle_ply, pressure, degree).w(a / 2, b / 2);
}

} // namespace vrid::published
