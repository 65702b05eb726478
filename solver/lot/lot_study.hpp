#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "solver/lot/capability.hpp"
#include "solver/lot/change.hpp"
#include "solver/lot/factors.hpp"
#include "solver/lot/lot_model.hpp"
#include "solver/lot/moved.hpp"
#include "solver/lot/outliers.hpp"
#include "solver/lot/spread.hpp"

namespace vrid {

/// The chance at which a finding is one: of a change, a spread, a centre.
inline constexpr double lot_level = 0.01;

struct LotOptions {
    std::vector<std::optional<CapabilityLimits>> limits; ///< of each number
    std::vector<std::vector<int>> columns; ///< text columns: group of each board, -1: not noted
    std::vector<std::size_t> joint;        ///< groups whose factors are asked for together
    ChangeOptions change;
};

/// The model again with values shifted, linear about there: its mean is what it says of no shift.
using ModelAt = std::function<LotModel(const std::vector<ValueShift>& shifts)>;

/// One number of the lot; SI.
struct LotNumber {
    double predicted = 0, predicted_sd = 0; ///< of readings: boards and rig
    NumberSpread found;                     ///< its mean is that of the readings
    double mean_sd = 0;                     ///< of the mean, without the rig's bias
    std::optional<Capability> built;        ///< of the boards before a change
    std::optional<Capability> late;         ///< of the last fifth, if there is a change
};

/// Which boards the later steps are about.
enum class LotBoards { all, before_change, after_change };

struct LotFindings {
    std::optional<GroupFactor> wide; ///< scatters so much that outliers and changes allow for it
    std::vector<LotOutlier> outliers;
    LotChange change; ///< a finding when changed
    bool changed = false;
    std::vector<ColumnTest> columns;  ///< as the options'
    std::vector<double> columns_holm; ///< their p together
    LotBoards about = LotBoards::all;
    std::vector<Eigen::Index> used; ///< the boards that what follows is about
    std::vector<LotNumber> numbers;
    std::optional<LotSpread> spread;
    LotMoved moved;
    std::vector<GroupFactor> factors; ///< smallest p first
    std::vector<JointFactor> joint;
};

/// All that a lot's readings say, in order: outliers (left out after), change (what follows is of
/// the boards before it), then spread, what moved, what scatters, capability. If about the running
/// median a group of values scatters by another factor than declared (Holm p < 0.001), outliers,
/// change and centre allow for it: else a wide lot looks like outliers and drift.
LotFindings study_lot(const LotModel& model, const LotReadings& readings, const LotOptions& options,
                      const ModelAt& at = nullptr);

/// Outliers alone, with the group that they allow for.
struct LotFirstLook {
    std::optional<GroupFactor> wide;
    std::vector<LotOutlier> outliers;
};
LotFirstLook first_look(const LotModel& model, const LotReadings& readings, int threads);

} // namespace vrid
