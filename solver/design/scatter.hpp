#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/design/controlled_spread.hpp"
#include "solver/design/session.hpp"
#include "solver/design/tolerance.hpp"

namespace vrid {

/// A design value that scatters from board to board.
struct ScatterSource {
    DesignId id;                     ///< of its first value
    std::vector<std::size_t> values; ///< of design_board(board).values, independent of each other
};

/// What one source does to one number, to first order.
struct SourceShare {
    std::size_t source = 0;  ///< in Scatter::sources
    double sd = 0;           ///< of the number by this source alone, SI
    double share = 0;        ///< of the number's variance
    double sd_if_halved = 0; ///< of the number, when this source scatters half as much
    std::optional<double> yield_if_halved; ///< share of boards inside the limits then
};

/// A number over many boards.
struct NumberScatter {
    BoardNumber nominal;
    double sd = 0;                   ///< to first order, SI
    std::optional<double> min, max;  ///< limits, SI
    std::optional<double> yield;     ///< to first order; nothing without limits
    std::vector<SourceShare> shares; ///< largest first
    std::vector<double> sampled;     ///< rising; empty unless asked for, SI
    double sampled_mean = 0, sampled_sd = 0;
    std::optional<double> sampled_yield; ///< share of the samples inside the limits
    /// The samples with the linear model as a control variate; nothing without samples.
    std::optional<ControlledSpread> controlled;
};

struct Scatter {
    std::vector<ScatterSource> sources;
    std::vector<NumberScatter> numbers;
    std::vector<std::string> warnings;
};

/// Normal scatter of independent design values through the derivatives: var r = sum (dr/dp sd)^2.
/// \param limits one per request
/// \param edge for the edge results
Scatter first_order_scatter(Session& session, const std::vector<NumberId>& requests,
                            const std::vector<NumberLimits>& limits,
                            const std::vector<Tolerance>& tolerances,
                            const EdgeCondition& edge = {});

/// The session's board with some design values set. \throws InputError for one that cannot be
using BoardWith = std::function<Board(const SetValues& values)>;

struct SampleOptions {
    int samples = 0; ///< least_controlled or more
    std::uint64_t seed = 1;
};

/// Draws boards and solves each on the session's mesh, as many at once as there are threads; fills
/// `sampled` and `controlled` of every number. A board that is no physical one is drawn again, with
/// a warning. The samples do not depend on the number of threads. \throws InputError when hardly
/// any board can be
void add_samples(Scatter& scatter, Session& session, const std::vector<Tolerance>& tolerances,
                 const BoardWith& board_with, const SampleOptions& samples,
                 const EdgeCondition& edge = {});

/// Value below which the share p of the sorted samples lies, straight between neighbours.
double percentile(const std::vector<double>& sorted, double p);

/// Share of a normal distribution between two limits.
double normal_share(double mean, double sd, const NumberLimits& limits);

} // namespace vrid
