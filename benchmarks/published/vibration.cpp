// Square plates, lambda = omega a2 sqrt(rho h / D); rotary inertia counted.
#include <cmath>
#include <map>
#include <memory>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"
#include "solver/system/eigenvalues.hpp"

namespace vrid::published {

namespace {

constexpr double E_vibration = 1e9, nu_vibration = 0.3;

struct VibrationRow {
    double length;    ///< along x over the side along y; lambda is on length squared
    char sides;       ///< F all free, C cantilever, K all clamped, S all hard supported
    double thickness; ///< 0: the limit of thin plates
    std::vector<double> published;
    double rounding;
    Kind kind = Kind::judged;
};

using Spectrum = std::vector<double>;

struct VibratingPlate {
    double length;
    char sides;
    int count;
};

Spectrum spectrum(const VibratingPlate& plate, double thickness, int p) {
    const char sides = plate.sides;
    // free sides have a layer as wide as the plate is thick
    const int layers = thickness < 0.005 ? 4 : thickness < 0.05 ? 3 : 2;
    const std::vector<double> lines = graded(2, layers, 0.2);
    const PlateModel model =
        make_model(graded_patch(rectangle(plate.length, 1), lines, lines), p,
                   tests::isotropic_section(E_vibration, nu_vibration, thickness));
    Loading loading = free_loading(model);
    if (sides != 'F') {
        support(loading, model, sides == 'S' ? Support::hard : Support::clamped,
                [&](double x, double) { return sides != 'C' || x < 1e-9; });
    }
    for (int node = 0; node < model.numbering.nodes; ++node) { // bending only
        prescribe(loading, {node}, comp_u);
        prescribe(loading, {node}, comp_v);
    }
    const Modes modes = lowest_modes(model, loading.fixed, plate.count);
    const double scale =
        plate.length * plate.length *
        std::sqrt(model.inertia(0, 0) / bending_stiffness(E_vibration, nu_vibration, thickness));
    Spectrum lambda;
    for (Eigen::Index k = 0; k < modes.omega2.size(); ++k) {
        lambda.push_back(std::sqrt(modes.omega2(k)) * scale);
    }
    return lambda;
}

// Each (thickness, degree) once for all frequencies of a row.
class Spectra {
  public:
    explicit Spectra(const VibratingPlate& plate) : plate_(plate) {}
    double number(double thickness, std::size_t k, int p) {
        const auto [found, added] = known_.try_emplace({thickness, p});
        if (added) {
            found->second = spectrum(plate_, thickness, p);
        }
        return found->second[k];
    }

  private:
    VibratingPlate plate_;
    std::map<std::pair<double, int>, Spectrum> known_;
};

// At a free side the first-order theory differs from the thin plate by a layer, so by a part that
// is linear in the thickness: the parabola through three thicknesses, taken at zero. Bar: that of
// the degree and what the parabola adds to the straight line.
Ours thin_limit(Spectra& spectra, double length, std::size_t k) {
    const auto at = [&](double t, int p) { return spectra.number(t, k, p); };
    const double h = 2e-3 * length;
    const auto line = [&](int p) { return 2 * at(h / 4, p) - at(h / 2, p); };
    const auto parabola = [&](int p) {
        return (8 * at(h / 4, p) - 6 * at(h / 2, p) + at(h, p)) / 3;
    };
    Ours ours = at_two_degrees(6, parabola);
    ours.error += std::abs(parabola(6) - line(6));
    return ours;
}

std::string name_of(const VibrationRow& row) {
    const std::string sides = row.sides == 'F'   ? "free"
                              : row.sides == 'C' ? "cantilever"
                              : row.sides == 'K' ? "clamped"
                                                 : "hard supported";
    return sides +
           (row.length > 1 ? " rectangle " + std::to_string(static_cast<int>(row.length)) + ":1, "
                           : " square, ") +
           (row.thickness > 0 ? "h/a = " + std::to_string(row.thickness).substr(0, 6) : "h/a to 0");
}

std::string source_of(const VibrationRow& row) {
    if (row.kind == Kind::old_print) {
        return "Leissa, The free vibration of rectangular plates, 1973 (from memory), as printed: "
               "upper bounds by few functions";
    }
    if (row.thickness < 0.001) {
        return row.sides == 'S' ? "Leissa, The free vibration of rectangular plates, 1973 (from "
                                  "memory): pi2 (m2 + n2)"
                                : "plate of Kirchhoff, 1850: " + kirchhoff_ritz;
    }
    return "Mindlin, Influence of rotatory inertia and shear on flexural motions of isotropic "
           "elastic plates, 1951 (from memory): " +
           mindlin_ritz;
}

} // namespace

std::vector<Check> vibration() {
    const std::vector<VibrationRow> rows{
        {1, 'S', 0.0001, {19.7392, 49.3480, 49.3480, 78.9568}, 5e-5},
        {1, 'K', 0.0001, {35.9852, 73.3938, 73.3938, 108.2165, 131.5807}, 5e-5},
        {1, 'K', 0.0001, {35.992, 73.413, 73.413, 108.27, 131.64}, 5e-3, Kind::old_print},
        {1, 'F', 0, {13.4682, 19.5961, 24.2702, 34.8009, 34.8009, 61.0932}, 5e-5},
        {1, 'F', 0, {13.489, 19.789, 24.432, 35.024, 35.024, 61.526}, 5e-4, Kind::old_print},
        {1, 'C', 0, {3.47100, 8.50619, 21.2839, 27.1987, 30.9542}, 5e-5},
        {1, 'C', 0, {3.4917, 8.5246, 21.429, 27.331, 31.111}, 5e-4, Kind::old_print},
        {2, 'F', 0, {21.46315, 26.57490, 58.48195, 59.60608}, 5e-6},
        {2, 'C', 0, {3.43923, 14.80134, 21.43314, 48.17584}, 5e-6},
        {5, 'C', 0, {3.3973, 21.26524, 33.9128}, 5e-5},
        {1, 'F', 0.01, {13.41278, 19.58808, 24.25681, 34.65398, 34.65398}, 5e-6},
        {1, 'F', 0.1, {12.71892, 18.94341, 23.32449, 31.92164, 31.92164, 55.35086}, 5e-6},
        {1, 'F', 0.2, {11.70114, 17.40024, 21.19360, 27.57348}, 5e-6},
        {1, 'S', 0.1, {19.06497, 45.48268, 45.48268, 69.79437}, 5e-6},
        {1, 'S', 0.2, {17.44859, 38.15217, 38.15217, 55.15008}, 5e-6},
        {1, 'K', 0.01, {35.94235, 73.23889, 73.23889, 107.89158}, 5e-6},
        {1, 'K', 0.1, {32.52428, 62.03857, 62.03857, 86.94895, 102.43439}, 5e-6},
        {1, 'K', 0.2, {26.52410, 46.29563, 46.29563, 62.16360}, 5e-6},
        {1, 'C', 0.01, {3.469990, 8.480000, 21.26142}, 5e-6},
        {1, 'C', 0.1, {3.430625, 8.060209, 20.08863, 25.49919, 28.24388}, 5e-6},
        {1, 'C', 0.2, {3.339217, 7.347782, 17.57219, 22.46825}, 5e-6}};
    std::vector<Check> checks;
    for (const VibrationRow& row : rows) {
        const auto spectra = std::make_shared<Spectra>(
            VibratingPlate{row.length, row.sides, static_cast<int>(row.published.size())});
        for (std::size_t k = 0; k < row.published.size(); ++k) {
            const double t = row.thickness;
            const double length = row.length;
            checks.push_back(
                {name_of(row) + ", frequency " + std::to_string(k + 1), source_of(row),
                 row.published[k], row.rounding,
                 [=] {
                     return t > 0
                                ? at_two_degrees(6, [&](int p) { return spectra->number(t, k, p); })
                                : thin_limit(*spectra, length, k);
                 },
                 row.kind});
        }
    }
    return checks;
}

} // namespace vrid::published
