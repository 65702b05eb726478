// First-order Navier solutions, kappa = 5/6 as the source has it: wbar = 100 w E2 h3 / q a4.
#include <cmath>
#include <numbers>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/laminates.hpp"

namespace vrid::published {

namespace {

struct LaminateRow {
    std::string name;
    std::vector<double> degrees;
    double long_side, span_ratio; ///< b / a, a / h
    double sine, even;            ///< published; 0: not taken
};

double number(const LaminateRow& row, bool sine, int p) {
    using std::numbers::pi;
    const double h = 1 / row.span_ratio;
    const bool angle_ply = row.degrees.front() == -45;
    const double b = row.long_side;
    const Pressure pressure = [=](double x, double y) {
        return sine ? std::sin(pi * x) * std::sin(pi * y / b) : 1.0;
    };
    const Section<double> s = stack_section(even_stack(row.degrees, h), 5.0 / 6);
    return 100 * std::pow(h, 3) * laminate_deflection(s, 1, b, angle_ply, pressure, p);
}

} // namespace

std::vector<Check> laminate_plates() {
    const std::vector<double> tri{0, 90, 0};
    const std::vector<double> four{0, 90, 90, 0};
    const std::vector<double> eight{0, 90, 0, 90, 0, 90, 0, 90};
    const std::vector<double> angle8{-45, 45, -45, 45, -45, 45, -45, 45};
    const std::vector<LaminateRow> rows{{"(0/90/0)", tri, 1, 4, 1.7758, 2.6595},
                                        {"(0/90/0)", tri, 1, 10, 0.6693, 1.0219},
                                        {"(0/90/0)", tri, 1, 100, 0.4337, 0.6697},
                                        {"(0/90/90/0)", four, 1, 4, 1.7095, 2.5673},
                                        {"(0/90/90/0)", four, 1, 10, 0.6627, 1.0250},
                                        {"(0/90/90/0)", four, 1, 100, 0.4337, 0.6833},
                                        {"(0/90)", {0, 90}, 1, 4, 2.1492, 3.2709},
                                        {"(0/90)", {0, 90}, 1, 10, 1.2373, 1.9469},
                                        {"(0/90)", {0, 90}, 1, 100, 1.0653, 1.6980},
                                        {"(0/90)4", eight, 1, 10, 0.6216, 0.9661},
                                        {"(-45/45)", {-45, 45}, 1, 4, 1.7403, 2.6034},
                                        {"(-45/45)", {-45, 45}, 1, 10, 0.8284, 1.2792},
                                        {"(-45/45)", {-45, 45}, 1, 100, 0.6564, 1.0305},
                                        {"(-45/45)4", angle8, 1, 10, 0.4198, 0.6367},
                                        {"(0/90/0)", tri, 3, 4, 2.3626, 3.0210},
                                        {"(0/90/0)", tri, 3, 10, 0.8030, 1.0209},
                                        {"(0/90/0)", tri, 3, 100, 0.5064, 0.6492}};
    std::vector<Check> checks;
    for (const LaminateRow& row : rows) {
        for (const bool sine : {true, false}) {
            checks.push_back(
                {row.name + (row.long_side > 1 ? " b = 3 a" : " square") +
                     ", a/h = " + std::to_string(static_cast<int>(row.span_ratio)) +
                     (sine ? ", sine load, wbar" : ", even load, wbar"),
                 "Reddy, Mechanics of Laminated Composite Plates and Shells, 2004, ch. 7 (from "
                 "memory), Navier series recomputed",
                 sine ? row.sine : row.even, 5e-5, [row, sine] {
                     return at_two_degrees(5, [&](int p) { return number(row, sine, p); });
                 }});
        }
    }
    return checks;
}

} // namespace vrid::published
