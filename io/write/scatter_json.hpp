#pragma once

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"

namespace vrid {

/// A source of scatter; yields are shares 0..1.
struct FoundSource {
    std::string source;
    double sd = 0, share = 0, sd_if_halved = 0;
    std::optional<double> yield_if_halved;
};
VRID_FIELDS(FoundSource, 8, source, sd, share, sd_if_halved, yield_if_halved)
void check_part(const FoundSource& one);

/// Mean and spread, found in one way. Errors are standard errors, 0: none.
struct FoundSpread {
    double mean = 0, sd = 0, p5 = 0, p95 = 0;
    std::optional<double> yield{}, yield_error{};
    Later<double> sd_error{}, mean_error{}, p50{};
};

struct Histogram {
    double from = 0, width = 0; ///< width 0: there is none
    std::vector<int> counts;
};
VRID_FIELDS(Histogram, 8, from, width, counts)
void check_part(const Histogram& bins);

struct SampledSpread : FoundSpread {
    OrNull<Histogram> histogram; ///< nothing: few samples, or all the same
};
VRID_FIELDS(SampledSpread, 8, mean, mean_error, sd, p5, p50, p95, sd_error, yield, yield_error,
            histogram)

struct CorrectedSpread : FoundSpread {
    OrNull<double> plain_samples; ///< that would tell as much; nothing: not known
};
VRID_FIELDS(CorrectedSpread, 8, mean, mean_error, sd, p5, p50, p95, sd_error, yield, yield_error,
            plain_samples)

/// Percentiles and yield are to first order.
struct ScatteredNumber {
    std::string name;
    Measured quantity;
    double sd = 0, p5 = 0, p95 = 0;
    Later<double> p50{};
    std::optional<double> min{}, max{}; ///< limits
    std::optional<double> yield{};
    std::vector<FoundSource> sources{};
    std::optional<SampledSpread> sampled{};      ///< by the samples alone
    std::optional<CorrectedSpread> controlled{}; ///< by them with the linear model
    [[nodiscard]] FoundSpread first_order() const { return {quantity.value, sd, p5, p95, yield}; }
    [[nodiscard]] Histogram histogram() const;
};
VRID_FIELDS(ScatteredNumber, 8, quantity, sd, p5, p50, p95, min, max, yield, sources, sampled,
            controlled)
void check_part(const ScatteredNumber& number);

/// The document scatter.json.
struct ScatterFindings {
    int format = 1;
    std::string program;
    BoardEntry board;
    int samples = 0;
    Later<std::uint64_t> seed;
    Some<std::string> edge; ///< the condition of numbers on the edge
    ByName<ScatteredNumber> numbers;
    std::vector<std::string> warnings;
    Later<std::string> caution{vrid::caution};
};
VRID_FIELDS(ScatterFindings, 0, format, program, board, samples, seed, edge, numbers, warnings,
            caution)

/// \param file names it in errors \throws InputError for damaged text, another document, another
/// format, numbers that cannot be
ScatterFindings read_scatter(const std::string& text, const std::string& file);

} // namespace vrid
