#include "io/read/board_problems.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "io/toml/accepted.hpp"
#include "io/toml/fault_words.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/digits_apart.hpp"

namespace vrid {

namespace {

// Common practice, no source: wide enough that a board which is built as boards are gives no
// warning, narrow enough that a slipped digit or a wrong unit gives one.
constexpr std::array usual_ranges{
    Usual{Judged::weight, 4, 12, "kg/m2",
          "boards of wood or foam, glass, base and edges weigh this much"},
    Usual{Judged::total, 2, 20, "mm", "thinner breaks at once, thicker cannot be bent"},
    Usual{Judged::sheet, 0.1, 4, "mm",
          "bases, top sheets, foils and veneers are sold in this range"},
    Usual{Judged::fabric, 0.03, 3, "mm", "one layer of cloth between a thin veil and 2 kg/m2"},
    Usual{Judged::beyond_tip, 0, 20, "mm", "beyond the tip there is no core"},
    Usual{Judged::inside_contact, 0, 5, "mm",
          "beyond its last station the core stays as thick as there"},
    Usual{Judged::tip_length, 3, 45, "% of the running length",
          "tips are a twentieth to two fifths of the running length"},
    Usual{Judged::waist, 70, 100, "%",
          "boards have 80 to 95 %; above 100 % the sides bulge and have no sidecut radius"},
    Usual{Judged::fibre_fraction, 0.3, 0.65, "", "hand laminating gives 0.3, pressing 0.6"},
    Usual{Judged::twist_to_bend, 0.15, 3, "",
          "GJ is 1.5 times EI for metal, less for fibres along, more at 45 degrees"},
    Usual{Judged::rest_radius, 200, std::numeric_limits<double>::infinity(), "mm",
          "tips are bent to 250 mm and more; two heights a tip put all its curl at one end, four "
          "or more make it round"},
    Usual{Judged::rest_thickness, 0, 0.05, "",
          "a board that is thick for its bend is no longer a shell as computed"},
};

const Usual& usual(Judged what) {
    return *std::ranges::find(usual_ranges, what, &Usual::what);
}

} // namespace

void Judge::say(const std::string& path, const std::string& what) {
    std::string place = place_of(places_, path);
    found_.push_back({place.empty() ? board_.file : std::move(place), path + ": " + what});
}

void Judge::hold(Judged what, double value, const std::string& path, const std::string& label,
                 const std::string& where) {
    const Usual& range = usual(what);
    constexpr double rounding = 1e-9; // of a difference of two places of the file, relative
    if (value >= range.min * (1 - rounding) && value <= range.max * (1 + rounding)) {
        return;
    }
    const std::string unit = range.unit.empty() ? "" : " " + std::string(range.unit);
    const std::string usually =
        std::isfinite(range.max) ? number_text(range.min) + " to " + number_text(range.max) + unit
                                 : number_text(range.min) + unit + " or more";
    const double passed = value < range.min ? range.min : range.max;
    say(path, label + " is " + short_number(value, digits_apart(value, passed, 4)) + unit + where +
                  "; usual: " + usually + ", " + std::string(range.reason));
}

void Judge::hold(Judged what, const std::map<double, double>& values, const std::string& path,
                 const std::string& label) {
    const Usual& range = usual(what);
    const auto outside = [&](const std::pair<const double, double>& at) {
        return std::max(at.second / range.max, range.min / at.second);
    };
    if (!values.empty()) {
        const auto [x, value] = *std::ranges::max_element(values, {}, outside);
        hold(what, value, path, label,
             " at x = " + number_text(round_significant(from_si("x_mm", x), 4)) + " mm");
    }
}

} // namespace vrid
