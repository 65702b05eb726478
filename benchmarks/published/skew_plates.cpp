// Rhombic plates under even pressure; quads crowd at the corners, where the moments are singular.
#include <cmath>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"
#include "benchmarks/published/turned.hpp"

namespace vrid::published {

namespace {

constexpr double E_skew = 1e9;

struct SkewRow {
    double degrees, thickness;
    char support; ///< s soft, h hard, c clamped all round; S, H soft, hard on the sides along x,
                  ///< others free
    char what;    ///< w centre; f middle of the free side; y centre My
    double published, rounding;
    Kind kind;
    std::string source;
};

double number(const SkewRow& row, int p) {
    const bool two_sides = row.support == 'S' || row.support == 'H';
    const double nu = two_sides ? 0.31 : 0.3;
    const double angle = row.degrees * std::numbers::pi / 180;
    const std::vector<double> lines = graded(2,
                                             row.degrees < 45                     ? 7
                                             : two_sides && row.thickness < 0.005 ? 3
                                                                                  : 5,
                                             0.2);
    PlateModel model = make_model(graded_patch(rhombus(angle), lines, lines), p,
                                  tests::isotropic_section(E_skew, nu, row.thickness));
    Loading loading = free_loading(model);
    const double height = std::sin(angle);
    const auto on = [&](double, double y) { return !two_sides || y < 1e-9 || y > height - 1e-9; };
    support(loading, model,
            row.support == 'c'   ? Support::clamped
            : row.support == 'H' ? Support::hard
                                 : Support::soft,
            on);
    loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    const Bent plate = bent(std::move(model), loading);
    const Point centre((1 + std::cos(angle)) / 2, height / 2);
    const double D = bending_stiffness(E_skew, nu, row.thickness);
    switch (row.what) {
    case 'f':
        return plate.w(std::cos(angle) / 2, height / 2) * D;
    case 'y':
        return plate.moment(centre.x(), centre.y())(1);
    default:
        return plate.w(centre.x(), centre.y()) * D;
    }
}

// All round hard supported: centre w D with so many lines round the corners.
double hard(const SkewRow& row, int layers, int p) {
    const double angle = row.degrees * std::numbers::pi / 180;
    const std::vector<double> lines = graded(2, layers, 0.2);
    PlateModel model = make_model(graded_patch(rhombus(angle), lines, lines), p,
                                  tests::isotropic_section(E_skew, 0.3, row.thickness));
    const auto everywhere = [](double, double) { return true; };
    Loading loading = free_loading(model);
    for (const Component c : {comp_u, comp_v}) {
        prescribe(loading, tests::outline_nodes(model, everywhere), c);
    }
    loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    const Bent plate = bent_on_hard_sides(std::move(model), loading, everywhere);
    return plate.w((1 + std::cos(angle)) / 2, std::sin(angle) / 2) *
           bending_stiffness(E_skew, 0.3, row.thickness);
}

// At a hard corner of angle c the rotations go like r^(pi/c - 1): quads of size s leave an error
// like s^(2 (pi/c - 1)), which two sizes remove. Bar: that of the degree, and how far the result
// moves when both sizes are larger.
Ours hard_supported(const SkewRow& row) {
    if (row.degrees > 45) {
        return at_two_degrees(6, [&](int p) { return hard(row, 5, p); });
    }
    const double obtuse = std::numbers::pi * (1 - row.degrees / 180);
    const double left = std::pow(0.2, 2 * 2 * (std::numbers::pi / obtuse - 1)); // of two layers
    const auto limit = [&](int layers, int p) {
        return (hard(row, layers, p) - left * hard(row, layers - 2, p)) / (1 - left);
    };
    Ours ours = at_two_degrees(6, [&](int p) { return limit(8, p); });
    ours.error += std::abs(ours.value - limit(6, 6));
    return ours;
}

std::string name_of(const SkewRow& row) {
    const std::string support = row.support == 'c'   ? "clamped"
                                : row.support == 'h' ? "hard supported"
                                : row.support == 's' ? "softly supported"
                                : row.support == 'S' ? "two sides softly supported"
                                                     : "two sides hard supported";
    return support + " rhombus of " + std::to_string(static_cast<int>(row.degrees)) +
           " degrees, h/L = " + std::to_string(row.thickness).substr(0, 6) +
           (row.what == 'w'   ? ", centre w D / q L4"
            : row.what == 'f' ? ", free side w D / q L4"
                              : ", centre My / q L2");
}

} // namespace

std::vector<Check> skew_plates() {
    const std::string hp = "hp-graded Ritz solution; compare Babuska and Scapolla, Benchmark "
                           "computation and performance evaluation for a rhombic plate bending "
                           "problem, 1989 (from memory)";
    const std::string hard =
        "thin plate by two membranes and the moment sum, Reissner 1945, exact on convex polygons "
        "(recompute/hard_rhombus.py); compare Morley, Skew Plates and Structures, 1963 (from "
        "memory)";
    const std::string razzaque =
        "Razzaque, Program for triangular bending elements with derivative "
        "smoothing, 1973 (from memory), Mindlin solution recomputed";
    const std::string morley = "Morley, Skew Plates and Structures, 1963 (from memory): thin plate";
    const std::vector<SkewRow> rows{
        {30, 0.1, 's', 'w', 0.5177e-3, 5e-8, Kind::judged, hp},
        {30, 0.2, 's', 'w', 0.7306e-3, 5e-8, Kind::judged, hp},
        {30, 0.01, 's', 'w', 0.4248e-3, 5e-8, Kind::judged, hp},
        {30, 0.001, 's', 'w', 0.4142e-3, 5e-8, Kind::judged, hp},
        {30, 0.1, 'c', 'w', 0.1772e-3, 5e-8, Kind::judged, hp},
        {30, 0.2, 'c', 'w', 0.3795e-3, 5e-8, Kind::judged, hp},
        {30, 0.01, 'c', 'w', 0.1090e-3, 5e-8, Kind::judged, hp},
        {30, 0.001, 's', 'w', 0.408e-3, 5e-7, Kind::other_model, morley},
        {30, 0.01, 'h', 'w', 0.40850256e-3, 5e-12, Kind::judged, hard},
        {30, 0.1, 'h', 'w', 0.47360182e-3, 5e-12, Kind::judged, hard},
        {30, 0.2, 'h', 'w', 0.67087232e-3, 5e-12, Kind::judged, hard},
        {30, 0.01, 'h', 'w', 0.408e-3, 5e-7, Kind::other_model, morley},
        {60, 0.001, 'h', 'w', 2.5601153e-3, 5e-11, Kind::judged, hard},
        {60, 0.01, 'h', 'w', 2.5617651e-3, 5e-11, Kind::judged, hard},
        {60, 0.1, 'h', 'w', 2.7267479e-3, 5e-11, Kind::judged, hard},
        {60, 0.2, 'h', 'w', 3.2266958e-3, 5e-11, Kind::judged, hard},
        {60, 0.1, 's', 'w', 2.9833e-3, 5e-8, Kind::judged, hp},
        {60, 0.2, 's', 'w', 3.6449e-3, 5e-8, Kind::judged, hp},
        {60, 0.01, 's', 'w', 2.6009e-3, 5e-8, Kind::judged, hp},
        {60, 0.001, 's', 'w', 2.5654e-3, 5e-8, Kind::judged, hp},
        {60, 0.1, 'c', 'w', 0.9537e-3, 5e-8, Kind::judged, hp},
        {60, 0.2, 'c', 'w', 1.4766e-3, 5e-8, Kind::judged, hp},
        {60, 0.001, 'c', 'w', 0.7690e-3, 5e-8, Kind::judged, hp},
        {60, 0.1, 'S', 'w', 0.84810e-2, 5e-8, Kind::judged, razzaque},
        {60, 0.1, 'S', 'f', 1.11693e-2, 5e-8, Kind::judged, razzaque},
        {60, 0.1, 'H', 'w', 0.84698e-2, 5e-8, Kind::judged, razzaque},
        {60, 0.1, 'H', 'f', 1.10046e-2, 5e-8, Kind::judged, razzaque},
        {60, 0.01, 'S', 'w', 0.79637e-2, 5e-8, Kind::judged, razzaque},
        {60, 0.01, 'H', 'w', 0.79604e-2, 5e-8, Kind::judged, razzaque},
        {60, 0.001, 'H', 'w', 0.79358e-2, 5e-8, Kind::judged, razzaque},
        {60, 0.001, 'H', 'w', 0.7945e-2, 5e-7, Kind::other_model,
         "Razzaque, 1973 (from memory), as printed: thin, finite differences"},
        {60, 0.001, 'H', 'y', 0.9589e-1, 5e-6, Kind::other_model,
         "Razzaque, 1973 (from memory), as printed: thin, finite differences"}};
    std::vector<Check> checks;
    for (const SkewRow& row : rows) {
        checks.push_back({name_of(row), row.source, row.published, row.rounding,
                          [row] {
                              return row.support == 'h'
                                         ? hard_supported(row)
                                         : at_two_degrees(6, [&](int p) { return number(row, p); });
                          },
                          row.kind});
    }
    return checks;
}

} // namespace vrid::published
