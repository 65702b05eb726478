#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/design/tolerance.hpp"

namespace vrid {

/// A design value that scatters from board to board.
struct ScatterSource {
    std::string name;                ///< its path; "core.thickness_mm" for all stations together
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
};

struct Scatter {
    std::vector<ScatterSource> sources;
    std::vector<NumberScatter> numbers;
    std::vector<std::string> warnings;
    std::shared_ptr<const Mesh> edge_mesh; ///< of the nominal board's edge results, if any
};

/// Limits of a number, SI.
struct NumberLimits {
    std::optional<double> min, max;
};

/// Normal scatter of independent design values through the derivatives: var r = sum (dr/dp sd)^2.
/// \param limits one per request
Scatter first_order_scatter(const Board& board, const std::vector<NumberRequest>& requests,
                            const std::vector<NumberLimits>& limits,
                            const std::vector<Tolerance>& tolerances,
                            const NumbersOptions& options);

/// The board with some design values set, SI: paths and one value each.
using BoardWith =
    std::function<Board(const std::vector<std::string>& paths, const Eigen::VectorXd& values)>;

struct SampleOptions {
    int samples = 0;
    std::uint64_t seed = 1;
};

/// Draws boards and solves each on the mesh of the nominal one, as many at once as there are
/// threads; fills `sampled` of every number. The samples do not depend on the number of threads.
/// \throws InputError when a drawn value is no physical one
void add_samples(Scatter& scatter, const Board& board, const std::vector<Tolerance>& tolerances,
                 const BoardWith& board_with, const SampleOptions& samples,
                 const NumbersOptions& options);

/// Value below which the share p of the sorted samples lies, straight between neighbours.
double percentile(const std::vector<double>& sorted, double p);

/// Share of a normal distribution between two limits.
double normal_share(double mean, double sd, const NumberLimits& limits);

} // namespace vrid
