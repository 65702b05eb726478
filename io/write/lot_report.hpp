#pragma once

#include "io/write/lot_document.hpp"
#include "solver/lot/lot_study.hpp"
#include "solver/lot/plan.hpp"

namespace vrid {

/// What something of a lot is called, and in which unit people see it.
struct LotName {
    std::string name, unit; ///< unit empty: a pure number
    double per_si = 1;
    double nominal = 0; ///< of a design value, SI
};

/// Where the numbers of a lot stand in its lists of names.
inline std::size_t place_in(Eigen::Index index) {
    return static_cast<std::size_t>(index);
}

struct LotPlan {
    std::vector<BoardsNeeded> boards;
    std::vector<std::string> candidates;
    std::vector<NextReadings> next;     ///< the first is the list as it is
    double lot = 0;                     ///< boards that the next readings are judged for
    std::vector<Eigen::Index> rivals;   ///< two, or none
    std::vector<Eigen::Index> interest; ///< values that D and A are about
};

/// What `vrid lot` writes.
struct LotReport {
    std::string board, hash;
    std::vector<LotName> numbers, values;
    std::vector<std::string> groups, serials, dates;
    std::vector<LotText> texts;
    std::vector<bool> rig_of_repeats; ///< by number
    LotModel model;
    LotReadings readings;
    std::vector<std::optional<CapabilityLimits>> limits; ///< by number
    LotFindings findings;
    double most_outside = 0.01; ///< share of boards outside the limits that is no finding
    std::optional<LotPlan> plan;
    std::vector<std::string> warnings;
};

/// One line a finding; none: the lot is what was predicted.
std::vector<std::string> lot_lines(const LotReport& report);
/// Lines that are no findings, but that a reader of the tables must know.
std::vector<std::string> lot_notes(const LotReport& report);

/// A share of boards as "1.2 %", with more decimals near 0; and as a chance, "0.002".
std::string share_text(double share);
std::string chance_text(double p);

/// Findings, then tables: numbers, outliers, explanations, factors, capability, plan.
std::string lot_text(const LotReport& report);

/// The document lot.json, format 1: program, board, boards, cells, findings (lines), numbers,
/// mean, spread, outliers, change, columns, explanations, shifts, scatter, plan, strips, warnings.
std::string lot_json(const LotReport& report);
/// Its strips: the moving average with weight 0.2 about the mean found, sums with k 0.5, h 5.
LotStrips lot_strips(const LotReport& report);

} // namespace vrid
