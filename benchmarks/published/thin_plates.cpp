// Kirchhoff plates, met at thickness / span = 2e-4 (1e-4 under a point force, whose shear part is
// logarithmic): the shear part is then below what the published digits show.
#include <cmath>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"

namespace vrid::published {

namespace {

constexpr double E_thin = 1e12, nu_thin = 0.3;

struct ThinRow {
    double ratio; ///< long over short side; x is the short one
    Support support;
    bool point; ///< central point load instead of even pressure
    char what;  ///< w: centre deflection; x, y: centre moment; R: corner force; X, Y: moment at the
                ///< middle of the side
    double published, rounding;
    Kind kind = Kind::judged;
};

double number(const ThinRow& row, int p) {
    const double t = row.point ? 1e-4 : 2e-4;
    // a point load and the sides' ends want small quads: lines crowd there
    const std::vector<double> lines =
        row.point ? std::vector<double>{0,     0.1,  0.25, 0.4,  0.48, 0.496, 0.5,
                                        0.504, 0.52, 0.6,  0.75, 0.9,  1}
                  : graded(4, 2, 0.25);
    PlateModel model = make_model(graded_patch(rectangle(1, row.ratio), lines, lines), p,
                                  tests::isotropic_section(E_thin, nu_thin, t));
    Loading loading = free_loading(model);
    support(loading, model, row.support, [](double, double) { return true; });
    const double x = 0.5;
    const double y = row.ratio / 2;
    if (row.point) {
        loading.force(unknowns_per_node * tests::nearest_node(model, x, y) + comp_w) = 1;
    } else {
        loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    }
    const Bent plate = bent(std::move(model), loading);
    switch (row.what) {
    case 'x':
        return plate.moment(x, y)(0);
    case 'y':
        return plate.moment(x, y)(1);
    case 'R': // 2 Mxy
        return 2 * std::abs(plate.moment(0, 0)(2));
    case 'X':
        return plate.moment(0, y)(0);
    case 'Y':
        return plate.moment(x, 0)(1);
    default:
        return plate.w(x, y) * bending_stiffness(E_thin, nu_thin, t);
    }
}

std::string name_of(const ThinRow& row) {
    std::string name = row.support == Support::clamped ? "clamped" : "simply supported";
    name += row.ratio == 1 ? " square" : " rectangle 1:" + std::to_string(row.ratio).substr(0, 3);
    name += row.point ? ", central force" : ", even load";
    switch (row.what) {
    case 'x':
        return name + ", moment across the short span at the centre, Mx / q a2";
    case 'y':
        return name + ", moment along the long span at the centre, My / q a2";
    case 'R':
        return name + ", corner force R / q a2";
    case 'X':
        return name + ", moment at the middle of the long side, Mx / q a2";
    case 'Y':
        return name + ", moment at the middle of the short side, My / q a2";
    default:
        return name + (row.point ? ", w D / P a2" : ", w D / q a4");
    }
}

} // namespace

std::vector<Check> thin_plates() {
    const Support s = Support::hard;
    const Support c = Support::clamped;
    const std::string series =
        "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959, table ";
    const std::vector<std::pair<ThinRow, std::string>> rows{
        {{1, s, false, 'w', 0.00406235, 5e-9}, "8"},
        {{1, s, false, 'x', 0.0478864, 5e-8}, "8"},
        {{1, s, false, 'R', 0.0649647, 5e-8}, "8"},
        {{1.5, s, false, 'w', 0.0077240, 5e-8}, "8"},
        {{1.5, s, false, 'x', 0.0811601, 5e-8}, "8"},
        {{1.5, s, false, 'y', 0.0498427, 5e-8}, "8"},
        {{2, s, false, 'w', 0.0101287, 5e-8}, "8"},
        {{2, s, false, 'x', 0.1016831, 5e-8}, "8"},
        {{2, s, false, 'y', 0.0463503, 5e-8}, "8"},
        {{2, s, false, 'R', 0.0925341, 5e-8}, "8"},
        {{1, s, true, 'w', 0.0116008, 5e-8}, "23"},
        {{1.5, s, true, 'w', 0.0153328, 5e-8}, "23"},
        {{2, s, true, 'w', 0.0165239, 5e-8}, "23"},
        {{1, c, false, 'w', 0.00126532, 5e-9}, "35"},
        {{1, c, false, 'x', 0.0229051, 5e-8}, "35"},
        {{1, c, false, 'X', -0.0513338, 5e-8}, "35"},
        {{1, c, false, 'x', 0.0231, 5e-5, Kind::old_print}, "35"},
        {{1.5, c, false, 'w', 0.00219652, 5e-9}, "35"},
        {{1.5, c, false, 'x', 0.0367714, 5e-8}, "35"},
        {{1.5, c, false, 'y', 0.0202680, 5e-8}, "35"},
        {{1.5, c, false, 'X', -0.0756586, 5e-8}, "35"},
        {{1.5, c, false, 'Y', -0.0570242, 5e-8}, "35"},
        {{2, c, false, 'w', 0.00253296, 5e-9}, "35"},
        {{2, c, false, 'x', 0.0411550, 5e-8}, "35"},
        {{2, c, false, 'y', 0.0158080, 5e-8}, "35"},
        {{2, c, false, 'X', -0.0828661, 5e-8}, "35"},
        {{2, c, false, 'Y', -0.05698665, 5e-9}, "35"},
        {{1, c, true, 'w', 0.0056120, 5e-8}, "37"},
        {{1, c, true, 'w', 0.00560, 5e-6, Kind::old_print}, "37"},
        {{1.5, c, true, 'w', 0.0070429, 5e-8}, "37"},
        {{2, c, true, 'w', 0.0072306, 5e-8}, "37"},
        {{2, c, true, 'w', 0.00722, 5e-6, Kind::old_print}, "37"}};
    std::vector<Check> checks;
    for (const auto& [row, table] : rows) {
        const ThinRow one = row;
        checks.push_back(
            {name_of(one) + (one.kind == Kind::old_print ? ", as printed" : ""),
             series + table + " (from memory)" +
                 (one.kind == Kind::old_print       ? ", as printed"
                  : one.support == Support::clamped ? ", recomputed: " + kirchhoff_ritz
                                                    : ", series recomputed to the digits shown"),
             one.published, one.rounding,
             [one] {
                 const auto at = [&](int p) { return number(one, p); };
                 return one.what == 'w' ? at_two_degrees(6, at) : at_three_degrees(6, at);
             },
             one.kind});
    }
    return checks;
}

} // namespace vrid::published
