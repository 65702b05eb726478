#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/write/number.hpp"

namespace vrid {

/// Where a layup gives: a place of strength.json.
struct FoundPlace {
    BenchQuantity load;
    double x = 0, y = 0; ///< [mm]
    bool both_sides = false;
    std::string layer, mode;
    int ply = 1;
    double angle = 0; ///< [deg]
    double z = 0;     ///< [mm]
    bool at_clamp = false, at_outline = false, resolved = true;
    int sign = 1; ///< of the load
};

/// Stress in a ply by component, "1", "2" and "12" at bottom and top, "13" and "23" at bottom,
/// middle and top [MPa].
using StressByName = std::map<std::string, std::vector<double>>;

/// A material of a ply with what it bears [MPa]; no strengths: not judged.
struct StressedPart {
    std::string material;
    StressByName stress;
    std::map<std::string, double> strengths; ///< "Xt", "Xc" ...
};

struct StressedPly {
    std::string layer;
    int ply = 1;
    double angle = 0;           ///< [deg]
    double bottom = 0, top = 0; ///< [mm]
    std::vector<StressedPart> parts;
};

struct FoundCaseStrength {
    std::string name;
    bool before_load = false; ///< the stress of the press alone is over a strength
    std::optional<FoundPlace> first, away, breaks;
    std::vector<std::vector<double>> lowest; ///< rows of columns, in the load's unit; nan: none
    std::vector<StressedPly> through;        ///< upwards; empty: not known
};

/// The load on the edge at which an index is 1.
struct FoundEdgeFailure {
    BenchQuantity load;
    std::string why_not; ///< where the search ended, if it could not be reached
};

/// A condition on the edge: the highest failure index there is.
struct FoundEdgeStrength {
    std::string name, no_equilibrium;
    bool before_load = false;
    std::optional<FoundPlace> first, away, breaks; ///< their `load` is the index
    std::optional<FoundEdgeFailure> to_first, to_break;
};

/// What strength.json holds.
struct StrengthFindings {
    std::string caution, before;        ///< before: stress before the load, "release", "cold", ""
    std::vector<double> x, right, left; ///< borders of the columns [mm]; empty: not known
    std::vector<std::string> not_judged;
    std::vector<FoundCaseStrength> cases;     ///< those with a first place
    std::vector<FoundEdgeStrength> on_edge{}; ///< with --edge
};

/// Reads strength.json. \throws InputError for damaged text, another document, another format
StrengthFindings read_strength_json(const std::string& text, const std::string& file);

/// A section of the page with the pictures below for every case; empty without a case. `id` is
/// unique on the page. \param outline of the board [mm]; empty: drawn along the cells
std::string strength_section(const StrengthFindings& strength,
                             const std::vector<std::pair<double, double>>& outline,
                             const std::string& id);
/// The conditions on the edge in a table; empty without one.
std::string edge_strength_table(const std::vector<FoundEdgeStrength>& conditions);
/// The planform by the lowest load at which a place gives, the weakest places marked.
std::string strength_map(const StrengthFindings& strength, const FoundCaseStrength& one,
                         const std::vector<std::pair<double, double>>& outline,
                         const std::string& id);
/// Stress through the thickness beside the strengths, and its table.
std::string stress_picture(const FoundCaseStrength& one, const std::string& id);

/// The largest share of a strength that a component of a part takes, and by which stress.
struct StrengthUse {
    double share = 0, stress = 0, strength = 0; ///< strength 0: not judged
};
StrengthUse strength_use(const StressedPart& part, const std::string& component);
/// What a part bears in a component: {below zero, above zero}, both positive; nothing: not judged.
std::optional<std::array<double, 2>> borne(const StressedPart& part, const std::string& component);

} // namespace vrid
