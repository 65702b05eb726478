// Mindlin plates, kappa = 5/6, even pressure.
#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"

namespace vrid::published {

namespace {

constexpr double E_thick = 1e9, nu_thick = 0.3;

struct ThickRow {
    double ratio, thickness;
    Support support;
    char what; ///< w: centre deflection; x: centre moment; X: at the middle of the side x = 0
    double published, rounding;
};

double number(const ThickRow& row, int p) {
    const std::vector<double> lines = graded(4, row.support == Support::soft ? 4 : 3, 0.25);
    PlateModel model = make_model(graded_patch(rectangle(1, row.ratio), lines, lines), p,
                                  tests::isotropic_section(E_thick, nu_thick, row.thickness));
    Loading loading = free_loading(model);
    support(loading, model, row.support, [](double, double) { return true; });
    loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    const Bent plate = bent(std::move(model), loading);
    const double y = row.ratio / 2;
    switch (row.what) {
    case 'x':
        return plate.moment(0.5, y)(0);
    case 'X':
        return plate.moment(0, y)(0);
    default:
        return plate.w(0.5, y) * bending_stiffness(E_thick, nu_thick, row.thickness);
    }
}

std::string name_of(const ThickRow& row) {
    const std::string support = row.support == Support::clamped ? "clamped"
                                : row.support == Support::soft  ? "softly supported"
                                                                : "hard supported";
    std::string text = support + (row.ratio == 1 ? " square" : " rectangle 1:2") +
                       ", h/a = " + std::to_string(row.thickness).substr(0, 5);
    return text + (row.what == 'w'   ? ", w D / q a4"
                   : row.what == 'x' ? ", centre Mx / q a2"
                                     : ", mid-side Mx / q a2");
}

} // namespace

std::vector<Check> thick_plates() {
    const Support s = Support::soft;
    const Support h = Support::hard;
    const Support c = Support::clamped;
    const std::vector<ThickRow> rows{
        {1, 0.001, h, 'w', 0.0040624, 5e-8}, {1, 0.01, h, 'w', 0.0040645, 5e-8},
        {1, 0.05, h, 'w', 0.0041150, 5e-8},  {1, 0.1, h, 'w', 0.0042728, 5e-8},
        {1, 0.2, h, 'w', 0.0049043, 5e-8},   {1, 0.25, h, 'w', 0.0053779, 5e-8},
        {1, 0.3, h, 'w', 0.0059568, 5e-8},   {1, 0.01, s, 'w', 0.00409930, 5e-9},
        {1, 0.05, s, 'w', 0.00428955, 5e-9}, {1, 0.1, s, 'w', 0.00461691, 5e-9},
        {1, 0.2, s, 'w', 0.00554504, 5e-9},  {1, 0.01, c, 'w', 0.0012679, 5e-8},
        {1, 0.1, c, 'w', 0.00150463, 5e-9},  {1, 0.2, c, 'w', 0.00217216, 5e-9},
        {2, 0.01, h, 'w', 0.0101319, 5e-8},  {2, 0.1, h, 'w', 0.0104540, 5e-8},
        {2, 0.2, h, 'w', 0.0114301, 5e-8},   {2, 0.1, s, 'w', 0.0108455, 5e-8},
        {2, 0.2, s, 'w', 0.0121842, 5e-8},   {2, 0.1, c, 'w', 0.0028926, 5e-8},
        {2, 0.2, c, 'w', 0.0039473, 5e-8},   {1, 0.1, c, 'x', 0.0231999, 5e-8},
        {1, 0.1, c, 'X', -0.0493696, 5e-8},  {1, 0.2, c, 'x', 0.0235749, 5e-8},
        {1, 0.2, c, 'X', -0.0462522, 5e-8},  {1, 0.1, s, 'x', 0.0509571, 5e-8},
        {1, 0.2, s, 'x', 0.0536252, 5e-8}};
    std::vector<Check> checks;
    for (const ThickRow& row : rows) {
        const std::string source =
            row.support == Support::hard
                ? "Reissner, The effect of transverse shear deformation on the bending of elastic "
                  "plates, 1945 (from memory): w = thin w + moment sum / kappa G h, exact on "
                  "polygons"
                : "Mindlin, Influence of rotatory inertia and shear on flexural motions of "
                  "isotropic elastic plates, 1951 (from memory): " +
                      mindlin_ritz;
        checks.push_back({name_of(row), source, row.published, row.rounding, [row] {
                              const auto at = [&](int p) { return number(row, p); };
                              return row.what == 'w' ? at_two_degrees(6, at)
                                                     : at_three_degrees(6, at);
                          }});
    }
    return checks;
}

} // namespace vrid::published
