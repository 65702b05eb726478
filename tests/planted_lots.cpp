#include "planted_lots.hpp"

#include <cmath>
#include <random>
#include <vector>

#include "solver/lot/lot_study.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double two_sided = 1.959964;

// What one seeded lot of each kind shows: 1 or 0, `all_shifts` a share of the values.
struct Seen {
    double one_shift = 0, all_shifts = 0, factor_one = 0, factor_four = 0, outside = 0;
    double spread_small = 0, change_small = 0, false_outlier = 0;
};

LotCentre centre_of(const LotModel& model, const LotReadings& readings) {
    const LotCells cells = lot_cells(model, readings);
    return lot_centre(cells, lot_weights(cells, board_covariance(model)));
}

void see_steady(Seen& seen, const LotModel& model, std::size_t group, std::uint64_t seed) {
    const LotReadings readings = planted_lot(model, {}, seed);
    const LotCells cells = lot_cells(model, readings);
    const MatrixXd V = board_covariance(model);
    seen.false_outlier = first_look(model, readings, 1).outliers.empty() ? 0 : 1;
    ChangeOptions options;
    options.seed = seed;
    seen.change_small = lot_change(model, cells, V, options).p < 0.05 ? 1 : 0;
    const auto spread = lot_spread(model, cells);
    seen.spread_small = spread && spread->p < 0.05 ? 1 : 0;
    const auto factor = group_factor(model, cells, pattern_sums(cells), group);
    seen.factor_one = factor->low <= 1 && (!factor->high || *factor->high >= 1) ? 1 : 0;
    const double sd = std::sqrt(V(0, 0));
    const CapabilityLimits limits{model.mean(0) - 2 * sd, model.mean(0) + 1.5 * sd};
    const NumberSpread first = number_spreads(model, cells).front();
    const Capability found = capability(
        {model.mean(0) + first.mean, first.sd, first.cells, model.rig_sd(0), 0}, limits, seed);
    const double truth = share_outside(model.mean(0), sd, limits);
    seen.outside = found.low <= truth && truth <= found.high ? 1 : 0;
}

void see_shifted(Seen& seen, const LotModel& model, Index value, std::uint64_t seed) {
    PlantedLot lot;
    lot.shift = VectorXd::Zero(model.value_sd.size());
    lot.shift(value) = 2 * model.value_sd(value);
    LotExplanation alone;
    shifts_of(model, centre_of(model, planted_lot(model, lot, seed)), {value}, alone);
    const ValueShift& found = alone.shifts.front();
    seen.one_shift = std::abs(found.shift - lot.shift(value)) < two_sided * found.sd ? 1 : 0;

    std::mt19937_64 random(seed + 7);
    std::normal_distribution<double> normal;
    for (Index j = 0; j < lot.shift.size(); ++j) {
        lot.shift(j) = model.value_sd(j) * normal(random);
    }
    const LotMoved moved = lot_moved(model, centre_of(model, planted_lot(model, lot, seed + 11)));
    for (const ValueShift& one : moved.held) {
        seen.all_shifts += std::abs(one.shift - lot.shift(one.value)) < two_sided * one.sd
                               ? 1.0 / static_cast<double>(moved.held.size())
                               : 0;
    }
}

void see_wide(Seen& seen, const LotModel& model, std::size_t group, std::uint64_t seed) {
    PlantedLot lot;
    lot.wide = group;
    lot.factor = 4;
    const LotCells cells = lot_cells(model, planted_lot(model, lot, seed));
    const auto found = group_factor(model, cells, pattern_sums(cells), group);
    seen.factor_four = found->low <= 4 && (!found->high || *found->high >= 4) ? 1 : 0;
}

} // namespace

LotReadings planted_lot(const LotModel& model, const PlantedLot& lot, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> uniform;
    const Index numbers = model.mean.size();
    LotReadings readings;
    readings.value.resize(numbers, lot.boards);
    readings.count.setOnes(numbers, lot.boards);
    VectorXd values(model.value_sd.size());
    for (Index i = 0; i < lot.boards; ++i) {
        for (Index j = 0; j < values.size(); ++j) {
            const bool wide = model.group[static_cast<std::size_t>(j)] == lot.wide;
            values(j) = model.value_sd(j) * normal(random) * (wide ? std::sqrt(lot.factor) : 1);
        }
        if (lot.shift.size() > 0) {
            values += lot.shift;
        }
        readings.value.col(i) = model.mean + model.slopes * values;
        for (Index k = 0; k < numbers; ++k) {
            readings.value(k, i) += model.rig_sd(k) * normal(random);
            if (uniform(random) < lot.missing) {
                readings.count(k, i) = 0;
                readings.value(k, i) = std::nan("");
            }
        }
    }
    return readings;
}

PlantedShares planted_shares(const LotModel& model, std::size_t group, Index value, int lots,
                             int threads) {
    std::vector<Seen> all(static_cast<std::size_t>(lots));
    for_each_in_parallel(lots, threads, [&](int lot) {
        Seen& seen = all[static_cast<std::size_t>(lot)];
        const auto seed = 1000 * static_cast<std::uint64_t>(lot + 1);
        see_steady(seen, model, group, seed);
        see_shifted(seen, model, value, seed + 100);
        see_wide(seen, model, group, seed + 200);
    });
    PlantedShares shares;
    for (const Seen& seen : all) {
        shares.one_shift += seen.one_shift / lots;
        shares.all_shifts += seen.all_shifts / lots;
        shares.factor_one += seen.factor_one / lots;
        shares.factor_four += seen.factor_four / lots;
        shares.outside += seen.outside / lots;
        shares.spread_small += seen.spread_small / lots;
        shares.change_small += seen.change_small / lots;
        shares.false_outlier += seen.false_outlier / lots;
    }
    return shares;
}

std::size_t strongest_group(const LotModel& model) {
    std::size_t best = 0;
    double most = -1;
    for (std::size_t group = 0; group < model.groups; ++group) {
        const double variance = group_covariance(model, group)(0, 0);
        if (variance > most) {
            most = variance;
            best = group;
        }
    }
    return best;
}

Index first_value_of(const LotModel& model, std::size_t group) {
    Index value = 0;
    while (model.group[static_cast<std::size_t>(value)] != group) {
        ++value;
    }
    return value;
}

} // namespace vrid
