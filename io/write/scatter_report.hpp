#pragma once

#include <string>

#include "mesh/board/board.hpp"
#include "solver/design/scatter.hpp"

namespace vrid {

/// What `vrid scatter` writes.
struct ScatterReport {
    Board board;
    Scatter scatter;
    SampleOptions samples;          ///< samples 0: none were drawn
    std::vector<std::string> set{}; ///< what --set changed
    std::string condition{};        ///< of the numbers on the edge (condition_of)
};

/// For each number: its scatter to first order (and sampled), percentiles, yield inside its limits,
/// and the sources with their share of the variance and what halving each would buy.
std::string scatter_text(const ScatterReport& report, std::size_t rows);

/// The document scatter.json, format 1: program, board, samples, seed, `numbers` by name (value,
/// unit, error, sd, p5, p50, p95, min, max, yield, `sources` (source, sd, share, sd_if_halved,
/// yield_if_halved), `sampled` (the samples alone: mean, mean_error, sd, sd_error, p5, p50, p95,
/// yield, yield_error, `histogram` (from, width, counts) or null), `controlled` (the samples with
/// the linear model as a control variate: the same, no histogram; plain_samples would know the
/// deviation as well, null without a bound)), warnings. Errors are standard errors.
std::string scatter_json(const ScatterReport& report);

} // namespace vrid
