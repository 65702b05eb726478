#include "io/write/strength_doubts.hpp"

#include "io/write/number.hpp"
#include "mesh/board/digits_apart.hpp"
#include "mesh/board/lists.hpp"
#include "solver/edge.hpp"

namespace vrid {
namespace {

constexpr const char* over = ": over the limit before any load";

void doubt_edge(const FoundEdgeStrength& one, bool small, std::vector<std::string>& all) {
    if (!one.no_equilibrium.empty()) {
        all.push_back(one.name + ": no equilibrium, " + one.no_equilibrium);
    }
    if (one.before_load.value_or(false)) {
        all.push_back(one.name + over);
    }
    if (const double slope = one.slope.value_or(0); small && slope > slope_limit) {
        all.push_back(one.name + ": the steepest slope is " +
                      significant(slope, digits_apart(slope, slope_limit, 2)) + ", above " +
                      significant(slope_limit, 2) +
                      ": turns that large are not modelled, but with --bent");
    }
}

} // namespace

std::string steep_words(const CaseSlopes& slopes) {
    std::vector<std::string> steep;
    for (const auto& [name, slope] : slopes) {
        if (slope > slope_limit) {
            steep.push_back(name + " " + significant(slope, digits_apart(slope, slope_limit, 2)));
        }
    }
    return steep.empty() ? ""
                         : "linear theory is stretched far where the steepest slope at the first "
                           "failure is above " +
                               significant(slope_limit, 2) + ": " + joined(steep);
}

std::vector<std::string> strength_doubts(const StrengthFindings& found) {
    std::vector<std::string> all = found.warnings.value;
    CaseSlopes slopes;
    for (const FoundCaseStrength& one : found.judged()) {
        slopes.emplace_back(one.name, one.slope.value_or(0));
        if (one.before_load.value_or(false)) {
            all.push_back(one.name + over);
        }
    }
    if (const std::string steep = steep_words(slopes); !steep.empty()) {
        all.push_back(steep);
    }
    for (const FoundEdgeStrength& one : found.edge.value_or(std::vector<FoundEdgeStrength>{})) {
        doubt_edge(one, found.edge_motion != "large", all);
    }
    return all;
}

} // namespace vrid
