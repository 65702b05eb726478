// Circular plates, radius 1, kappa = 5/6: closed forms.
#include <cmath>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"

namespace vrid::published {

namespace {

constexpr double E_disc = 1e9, nu_disc = 0.3;

struct DiscRow {
    double thickness, patch; ///< patch: radius of the load, 1 the whole plate
    Support support;
    char what; ///< w centre; m centre moment; e edge moment
    double published, rounding;
};

double number(const DiscRow& row, int p) {
    PlateModel model = make_model(disc(1, row.patch < 1 ? row.patch : 0.5, row.what == 'w' ? 2 : 3),
                                  p, tests::isotropic_section(E_disc, nu_disc, row.thickness));
    Loading loading = free_loading(model);
    support(loading, model, row.support, [](double, double) { return true; });
    const double total = row.patch < 1 ? 1 / (std::numbers::pi * row.patch * row.patch) : 1;
    loading.force = pressure_forces(model, [&](double x, double y) {
        return std::hypot(x, y) < row.patch || row.patch == 1 ? total : 0;
    });
    const Bent plate = bent(std::move(model), loading);
    switch (row.what) {
    case 'm':
        return plate.moment(0, 0)(0);
    case 'e':
        return plate.moment(1, 0)(0);
    default:
        return plate.w(0, 0) * bending_stiffness(E_disc, nu_disc, row.thickness);
    }
}

// w D / P R2 of a clamped plate under a total force P on a central disc of radius c.
double patch_deflection(double c, double h) {
    using std::numbers::pi;
    const double shear = h * h / (6 * (5.0 / 6) * (1 - nu_disc)); // D / (kappa G h)
    return (4 - 4 * c * c * std::log(1 / c) - 3 * c * c) / (64 * pi) +
           (1 + 2 * std::log(1 / c)) / (4 * pi) * shear;
}

} // namespace

std::vector<Check> circular_plates() {
    const Support s = Support::soft;
    const Support c = Support::clamped;
    const std::vector<DiscRow> rows{{0.01, 1, c, 'w', 0.0156321, 5e-8},
                                    {0.1, 1, c, 'w', 0.0163393, 5e-8},
                                    {0.2, 1, c, 'w', 0.0184821, 5e-8},
                                    {0.4, 1, c, 'w', 0.0270536, 5e-8},
                                    {0.01, 1, s, 'w', 0.0637091, 5e-8},
                                    {0.1, 1, s, 'w', 0.0644162, 5e-8},
                                    {0.2, 1, s, 'w', 0.0665591, 5e-8},
                                    {0.4, 1, s, 'w', 0.0751305, 5e-8},
                                    {0.1, 1, c, 'm', 1.3 / 16, 1e-12},
                                    {0.1, 1, c, 'e', -1.0 / 8, 1e-12},
                                    {0.1, 1, s, 'm', 3.3 / 16, 1e-12},
                                    {0.1, 0.2, c, 'w', patch_deflection(0.2, 0.1), 1e-12},
                                    {0.01, 0.1, c, 'w', patch_deflection(0.1, 0.01), 1e-12}};
    std::vector<Check> checks;
    for (const DiscRow& row : rows) {
        std::string name = row.support == c ? "clamped circle" : "supported circle";
        name += row.patch < 1
                    ? ", force on a disc of " + std::to_string(row.patch).substr(0, 3) + " R"
                    : ", even load";
        name += ", h/R = " + std::to_string(row.thickness).substr(0, 4);
        name += row.what == 'm'   ? ", centre M / q R2"
                : row.what == 'e' ? ", edge M / q R2"
                : row.patch < 1   ? ", w D / P R2"
                                  : ", w D / q R4";
        checks.push_back({name,
                          "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959, "
                          "section 16 to 18 (from memory), closed form with the shear part",
                          row.published, row.rounding, [row] {
                              return at_two_degrees(6, [&](int p) { return number(row, p); });
                          }});
    }
    return checks;
}

} // namespace vrid::published
