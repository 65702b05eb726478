#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"

namespace vrid::tests {

/// A number as printed, with its bar, against the same at a higher degree on the same mesh.
struct BarSample {
    unsigned seed = 0;
    std::string family, name; ///< "static", "nose-twist"
    double value = 0, bar = 0;
    double truth = 0, truth_bar = 0;
    [[nodiscard]] double error() const;
    [[nodiscard]] bool covered() const; ///< the bar holds the truth, to rounding
    /// The bar holds the whole bar of the truth: covered, wherever in it the limit lies.
    [[nodiscard]] bool covered_for_sure() const;
};

/// What a set of samples says.
struct BarStatistic {
    int samples = 0;
    double coverage = 0, sure_coverage = 0; ///< shares 0..1
    double median_ratio = 0;                ///< bar over error where both are above rounding
    const BarSample* worst = nullptr;       ///< smallest bar over error; null without samples
};

BarStatistic statistic(const std::vector<const BarSample*>& samples);

/// Of all samples and by name: families first as "static, all", then each number.
struct NamedStatistic {
    std::string name;
    BarStatistic statistic;
};
std::vector<NamedStatistic> statistics(const std::vector<BarSample>& samples);

/// Quads of the board's default mesh for all its cases. \throws SolveError
std::size_t default_quads(const Board& board);

/// All cases of a board: the default setting against the given degree, and the six modes.
/// \throws SolveError
std::vector<BarSample> study_samples(const Board& board, unsigned seed, int truth_degree);

/// All numbers with a bar, of three random conditions on snow; none where the board has no feet for
/// it or does not come to rest. \throws SolveError
std::vector<BarSample> edge_samples(const Board& board, unsigned seed, int truth_degree);

} // namespace vrid::tests
