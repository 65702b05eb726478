#pragma once

#include "io/write/edge_document.hpp"
#include "io/write/limits.hpp"

namespace vrid {

/// Where a layup gives, and how.
struct FoundSpot {
    double x_mm = 0, y_mm = 0;
    std::string layer;
    int ply = 1;
    Later<double> ply_deg{};
    double z_mm = 0;
    std::string mode;
    Later<bool> at_clamp{}, at_outline{}, resolved{true};
};

void check_part(const FoundSpot& spot);

/// A place with the load of the case at which it gives, and the travel at that load.
struct FoundPlace : FoundSpot {
    Measured load;
    Later<double> travel, travel_error;
    Later<std::string> travel_unit;
    Later<bool> both_sides;
    Later<int> sign{1}; ///< of the load
};
VRID_FIELDS(FoundPlace, 10, load, travel, travel_error, travel_unit, x_mm, y_mm, both_sides, layer,
            ply, ply_deg, z_mm, mode, at_clamp, at_outline, resolved, sign)

/// A place with the failure index there.
struct FoundIndex : FoundSpot {
    double index = 0, error = 0;
};
VRID_FIELDS(FoundIndex, 10, index, error, x_mm, y_mm, layer, ply, ply_deg, z_mm, mode, at_clamp,
            at_outline, resolved)

/// The highest index of the board bent far.
struct FoundBent : FoundIndex {
    std::string bench_case;
    double travel_mm = 0;
};
template <class Each, Of<FoundBent> Given> void fields(Each& each, Given& part) {
    each("case", part.bench_case); // a word of C++
    NLOHMANN_JSON_EXPAND(NLOHMANN_JSON_PASTE(VRID_FIELD, travel_mm, index, error, x_mm, y_mm, layer,
                                             ply, z_mm, mode, at_clamp, at_outline, resolved))
}

/// By component, "1", "2" and "12" at bottom and top, "13" and "23" at bottom, middle and top
/// [MPa].
using StressByName = Named<std::vector<double>>;

/// A material of a ply with what it bears [MPa]; no strengths: not judged.
struct StressedPart {
    std::string material;
    StressByName stress_MPa;
    OrNull<Named<double>> strengths_MPa; ///< "Xt", "Xc" ...
    /// 0 for what is not known.
    [[nodiscard]] double strength(const std::string& key) const;
};
VRID_FIELDS(StressedPart, 6, material, stress_MPa, strengths_MPa)
void check_part(const StressedPart& part);

struct StressedPly {
    std::string layer;
    int ply = 1;
    double ply_deg = 0;
    std::pair<double, double> z_mm; ///< bottom, top
    StressByName stress_MPa;
    std::vector<StressedPart> parts;
};
VRID_FIELDS(StressedPly, 6, layer, ply, ply_deg, z_mm, stress_MPa, parts)
void check_part(const StressedPly& ply);

struct IndexAt {
    double load = 0, index = 0;
    int sign = 1;
};
VRID_FIELDS(IndexAt, 10, load, index, sign)

struct FoundCaseStrength {
    std::string name;
    Some<std::string> skipped{}; ///< why; then there is nothing else
    std::optional<FoundPlace> first{}, away{}, breaks{};
    std::optional<std::vector<FoundPlace>> next{};
    std::optional<std::vector<std::string>> not_judged{};
    std::optional<bool> residual{};
    std::optional<bool> before_load{}; ///< the stress of the press alone is over a strength
    std::optional<double> slope{};
    std::optional<bool> kink{};
    std::optional<IndexAt> at{};
    std::optional<std::vector<std::vector<double>>> lowest_load{}; ///< rows of columns; nan: none
    std::optional<std::vector<StressedPly>> through{};             ///< upwards
};
VRID_FIELDS(FoundCaseStrength, 4, skipped, first, away, breaks, next, not_judged, residual,
            before_load, slope, kink, at, lowest_load, through)

/// The planform in cells: columns from x_mm[i] to x_mm[i + 1], in each `rows` of equal width from
/// the right side to the left.
struct StrengthGrid {
    std::vector<double> x_mm, right_mm, left_mm;
    int rows = 0;
};
VRID_FIELDS(StrengthGrid, 6, x_mm, right_mm, left_mm, rows)
void check_part(const StrengthGrid& grid);

/// The load on the edge at which an index is 1.
struct FoundEdgeFailure {
    Measured load;
    Some<std::string> why_not; ///< where the search ended, if it could not be reached
    Later<double> slope{};
    std::optional<FoundIndex> place{};
};
VRID_FIELDS(FoundEdgeFailure, 4, load, why_not, slope, place)

struct FailureLoads {
    std::optional<FoundEdgeFailure> first, breaks;
};
VRID_FIELDS(FailureLoads, 0, first, breaks)

/// A condition on the edge: the highest failure index there is.
struct FoundEdgeStrength : WrittenCondition {
    Some<std::string> no_equilibrium;
    std::optional<FoundIndex> first, away, breaks;
    std::optional<std::vector<FoundIndex>> next;
    std::optional<std::vector<std::string>> not_judged;
    std::optional<bool> residual, before_load;
    std::optional<double> slope;
    std::optional<FailureLoads> to_failure;
};
VRID_FIELDS(FoundEdgeStrength, 17, name, angle_deg, force_N, hardness, share, side, law,
            no_equilibrium, first, away, breaks, next, not_judged, residual, before_load, slope,
            to_failure)

/// The document strength.json.
struct StrengthFindings {
    std::string caution;
    int format = 1;
    Later<std::string> program;
    Later<BoardEntry> board;
    Later<std::string> criterion;
    OrNull<std::string> residual; ///< stress before the load: "release", "cold"
    ByName<FoundCaseStrength> strength;
    std::optional<StrengthGrid> grid;
    Some<std::vector<FoundBent>> bent;
    std::optional<std::string> edge_motion; ///< "small", "large"
    std::optional<std::vector<FoundEdgeStrength>> edge;
    Some<Verdicts> limits;
    Later<std::vector<std::string>> taken, warnings;
    Later<std::string> caution_again;
    /// The cases with a place at which they give.
    [[nodiscard]] std::vector<FoundCaseStrength> judged() const;
    /// Layers without strengths.
    [[nodiscard]] std::vector<std::string> not_judged() const;
};
VRID_FIELDS(StrengthFindings, 0, caution, format, program, board, criterion, residual, strength,
            grid, bent, edge_motion, edge, limits, taken, warnings, caution_again)
void check_part(const StrengthFindings& found);

/// \param file names it in errors \throws InputError for damaged text, another document, another
/// format
StrengthFindings read_strength_json(const std::string& text, const std::string& file);

} // namespace vrid
