// Square plates, lambda = omega a2 sqrt(rho h / D); rotary inertia counted.
#include <cmath>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"
#include "solver/system/eigenvalues.hpp"

namespace vrid::published {

namespace {

constexpr double E = 1e9, nu = 0.3;

struct Row {
    char sides; ///< F all free, C cantilever, K all clamped, S all hard supported
    double thickness;
    std::vector<double> published;
    double rounding;
};

std::vector<double> numbers(const Row& row, int p) {
    // free sides have a layer as wide as the plate is thick
    const std::vector<double> lines = graded(2, row.thickness < 0.05 ? 3 : 2, 0.2);
    const PlateModel model = make_model(graded_patch(rectangle(1, 1), lines, lines), p,
                                        tests::isotropic_section(E, nu, row.thickness));
    Loading loading = free_loading(model);
    if (row.sides != 'F') {
        support(loading, model, row.sides == 'S' ? Support::hard : Support::clamped,
                [&](double x, double) { return row.sides != 'C' || x < 1e-9; });
    }
    for (int node = 0; node < model.numbering.nodes; ++node) { // bending only
        prescribe(loading, {node}, comp_u);
        prescribe(loading, {node}, comp_v);
    }
    const Modes modes = lowest_modes(model, loading.fixed, static_cast<int>(row.published.size()));
    const double scale = std::sqrt(model.inertia(0, 0) / bending_stiffness(E, nu, row.thickness));
    std::vector<double> lambda;
    for (Eigen::Index k = 0; k < modes.omega2.size(); ++k) {
        lambda.push_back(std::sqrt(modes.omega2(k)) * scale);
    }
    return lambda;
}

std::string name_of(const Row& row) {
    const std::string sides = row.sides == 'F'   ? "free"
                              : row.sides == 'C' ? "cantilever"
                              : row.sides == 'K' ? "clamped"
                                                 : "hard supported";
    return sides + " square, h/a = " + std::to_string(row.thickness).substr(0, 6);
}

} // namespace

std::vector<Check> vibration() {
    const std::vector<Row> rows{{'S', 0.0001, {19.7392, 49.3480, 49.3480, 78.9568}, 5e-5},
                                {'K', 0.0001, {35.9852, 73.394, 73.394, 108.217, 131.581}, 5e-4},
                                {'F', 0.01, {13.442, 19.589, 24.259, 34.718, 34.718}, 5e-4},
                                {'F', 0.1, {12.719, 18.943, 23.325, 31.922, 31.922, 55.351}, 5e-4},
                                {'F', 0.2, {11.701, 17.400, 21.194, 27.574}, 5e-4},
                                {'S', 0.1, {19.065, 45.483, 45.483, 69.794}, 5e-4},
                                {'S', 0.2, {17.449, 38.152, 38.152, 55.150}, 5e-4},
                                {'K', 0.1, {32.524, 62.039, 62.039, 86.949, 102.434}, 5e-4},
                                {'K', 0.2, {26.524, 46.296, 46.296, 62.164}, 5e-4},
                                {'C', 0.01, {3.4702, 8.4900, 21.265}, 5e-4},
                                {'C', 0.1, {3.4307, 8.0604, 20.089, 25.499, 28.245}, 5e-4},
                                {'C', 0.2, {3.339, 7.348, 17.573, 22.468}, 5e-4}};
    std::vector<Check> checks;
    for (const Row& row : rows) {
        const std::string source =
            row.thickness < 0.001
                ? "Leissa, The free vibration of rectangular plates, 1973 (from memory), thin "
                  "plate "
                  "recomputed"
                : "Mindlin plate with rotary inertia, Ritz solution; compare Liew, Xiang and "
                  "Kitipornchai, Transverse vibration of thick rectangular plates, 1993 (from "
                  "memory)";
        for (std::size_t k = 0; k < row.published.size(); ++k) {
            checks.push_back({name_of(row) + ", frequency " + std::to_string(k + 1), source,
                              row.published[k], row.rounding, [row, k] {
                                  return at_two_degrees(6,
                                                        [&](int p) { return numbers(row, p)[k]; });
                              }});
        }
    }
    return checks;
}

} // namespace vrid::published
