// Three-dimensional elasticity, sine load on the top face: what first-order theory with our
// energy-consistent shear stiffness makes of it. A difference of models: shown, not judged.
#include <cmath>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/laminates.hpp"

namespace vrid::published {

namespace {

struct ElasticityRow {
    std::string name;
    int stack; ///< 0: 0/90/0; 1: 0/90/90/0; 2: sandwich
    double long_side, span_ratio, published;
    bool first_order; ///< energy-equivalent kappa of cylindrical bending in first-order theory
};

std::vector<StackPly> stack_of(const ElasticityRow& row) {
    const double h = 1 / row.span_ratio;
    if (row.stack < 2) {
        return even_stack(
            row.stack == 0 ? std::vector<double>{0, 90, 0} : std::vector<double>{0, 90, 90, 0}, h);
    }
    return pagano_sandwich(h);
}

double number(const ElasticityRow& row, int p) {
    using std::numbers::pi;
    const double b = row.long_side;
    const double w = laminate_deflection(
        stack_section(stack_of(row)), 1, b, false,
        [=](double x, double y) { return std::sin(pi * x) * std::sin(pi * y / b); }, p);
    return 100 * w / std::pow(row.span_ratio, 3);
}

} // namespace

std::vector<Check> elasticity() {
    std::vector<ElasticityRow> rows;
    const auto add = [&](const std::string& name, int stack, double b, bool first_order,
                         const std::vector<std::pair<double, double>>& values) {
        for (const auto& [ratio, value] : values) {
            rows.push_back({name, stack, b, ratio, value, first_order});
        }
    };
    add("(0/90/0) square", 0, 1, false,
        {{4, 2.0059}, {10, 0.7530}, {20, 0.5164}, {50, 0.4451}, {100, 0.4347}});
    add("(0/90/0) b = 3 a", 0, 3, false,
        {{4, 2.8211}, {10, 0.9189}, {20, 0.6095}, {50, 0.5205}, {100, 0.5077}});
    add("(0/90/90/0) square", 1, 1, false,
        {{4, 1.9367}, {10, 0.7370}, {20, 0.5130}, {100, 0.4346}});
    add("sandwich square", 2, 1, false,
        {{4, 7.5962}, {10, 2.2004}, {20, 1.2264}, {50, 0.9348}, {100, 0.8924}});
    add("(0/90/0) square", 0, 1, true,
        {{4, 2.2160}, {10, 0.7637}, {20, 0.5174}, {50, 0.4452}, {100, 0.4347}});
    add("sandwich square", 2, 1, true,
        {{4, 7.8412}, {10, 2.2109}, {20, 1.2274}, {50, 0.9349}, {100, 0.8924}});
    std::vector<Check> checks;
    for (const ElasticityRow& row : rows) {
        checks.push_back(
            {row.name + ", a/h = " + std::to_string(static_cast<int>(row.span_ratio)) +
                 (row.first_order ? ", wbar, first order with Whitney's kappa" : ", wbar, 3-D"),
             row.first_order
                 ? "Whitney, Shear correction factors for orthotropic laminates under static load, "
                   "1973 (from memory): cylindrical bending; ours bends freely across"
                 : "Pagano, Exact solutions for rectangular bidirectional composites and sandwich "
                   "plates, 1970; Pagano and Hatfield, 1972 (from memory), recomputed",
             row.published, 5e-5,
             [row] { return at_two_degrees(5, [&](int p) { return number(row, p); }); },
             Kind::other_model});
    }
    return checks;
}

} // namespace vrid::published
