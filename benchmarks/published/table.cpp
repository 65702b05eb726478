#include "benchmarks/published/check.hpp"
#include "solver/response/error_bar.hpp"

#include <algorithm>
#include <cmath>

namespace vrid::published {

Ours at_two_degrees(int degree, const std::function<double(int degree)>& number) {
    const double fine = number(degree);
    return {fine, error_bar(degree, fine, number(degree - 1))};
}

Ours at_three_degrees(int degree, const std::function<double(int degree)>& number) {
    const Ours two = at_two_degrees(degree, number);
    return {two.value, std::max(two.error, std::abs(two.value - number(degree - 2)))};
}

std::vector<Family> catalogue() {
    return {
        {"Thin plates", thin_plates()},
        {"Thick plates", thick_plates()},
        {"Skew plates", skew_plates()},
        {"Circular plates", circular_plates()},
        {"Free vibration", vibration()},
        {"Twist and torsion", torsion()},
        {"Laminated plates, first-order theory", laminate_plates()},
        {"Laminates against three-dimensional elasticity", elasticity()},
        {"Stresses through the thickness", ply_stress()},
        {"Beams: sandwich, taper, cylindrical bending", beams()},
        {"NAFEMS composite tests", nafems()},
        {"Sections: A B D S, micromechanics, thermal curvature, anticlastic bending", sections()},
        {"Out of the press", press()},
        {"Curved, and bent far", curved()},
        {"Where it gives first", strength()}};
}

} // namespace vrid::published
