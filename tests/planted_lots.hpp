#pragma once

#include <cstdint>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// Readings of boards that the model describes, drawn at random; `shift` of the values, SI.
struct PlantedLot {
    int boards = 40;
    double missing = 0.05; ///< share of cells
    Eigen::VectorXd shift; ///< of all boards; empty: none
    std::size_t wide = 0;  ///< group whose variance is `factor` times the declared one
    double factor = 1;
};
LotReadings planted_lot(const LotModel& model, const PlantedLot& lot, std::uint64_t seed);

/// How often what a lot says holds the truth, over many seeded lots: shares 0..1.
struct PlantedShares {
    double one_shift = 0;                   ///< 95 % interval of a value's shift, alone
    double all_shifts = 0;                  ///< of all values at once, each held by its deviation
    double factor_one = 0, factor_four = 0; ///< 95 % interval of a group's factor
    double outside = 0;                     ///< 95 % interval of a share outside the limits
    double spread_small = 0, change_small = 0; ///< p below 0.05 in a lot as declared
    double false_outlier = 0;                  ///< lots with one
};
/// \param group whose factor is planted \param value whose shift is planted, by two deviations
PlantedShares planted_shares(const LotModel& model, std::size_t group, Eigen::Index value, int lots,
                             int threads);

/// The group that does most to the first number, and its first value.
std::size_t strongest_group(const LotModel& model);
Eigen::Index first_value_of(const LotModel& model, std::size_t group);

} // namespace vrid
