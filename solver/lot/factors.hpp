#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// By how much a group's variance differs from the declared one, the others as declared.
struct GroupFactor {
    std::size_t group = 0;
    double factor = 1;          ///< on the variance, 0 or more
    double low = 0;             ///< 95 % profile interval
    std::optional<double> high; ///< nothing: the readings set no upper bound
    double p = 1;               ///< against 1
    double holm = 1;            ///< with all other groups
};

/// The factor of one group by restricted likelihood. Nothing for one that moves no reading.
std::optional<GroupFactor> group_factor(const LotModel& model, const LotCells& cells,
                                        const std::vector<PatternSums>& sums, std::size_t group);
/// All groups, each alone.
std::vector<GroupFactor> group_factors(const LotModel& model, const LotCells& cells,
                                       int threads = 1);

/// Factors of several groups at once with their deviations, by Fisher scoring of the restricted
/// likelihood (I_gh = nu/2 tr(S^-1 V_g S^-1 V_h)), each cut at 0.
struct JointFactor {
    std::size_t group = 0;
    double factor = 1, sd = 0;
};
std::vector<JointFactor> joint_factors(const LotModel& model, const LotCells& cells,
                                       const std::vector<std::size_t>& groups);

/// V with one group's variance times a factor.
Eigen::MatrixXd with_factor(const LotModel& model, std::size_t group, double factor);

} // namespace vrid
