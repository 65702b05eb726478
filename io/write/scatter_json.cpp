#include "io/write/scatter_json.hpp"

#include <algorithm>

namespace vrid {
namespace {

void must_be_share(const std::optional<double>& share, const std::string& of) {
    constexpr double rounding = 1e-6;
    must_hold(!share || (*share >= -rounding && *share <= 1 + rounding),
              "the share of '" + of + "' is " + significant(share.value_or(0), 3) +
                  ", accepted is 0 to 1");
}

} // namespace

void check_part(const FoundSource& one) {
    must_be_deviation(one.sd, one.source);
    must_be_deviation(one.sd_if_halved, one.source);
    must_be_share(one.share, one.source);
    must_be_share(one.yield_if_halved, one.source);
}

void check_part(const Histogram& bins) {
    must_hold(bins.width > 0 && !bins.counts.empty() && *std::ranges::min_element(bins.counts) >= 0,
              "a histogram needs a width above 0 and counts of 0 or more");
}

void check_part(const ScatteredNumber& number) {
    for (const FoundSpread& one :
         {number.first_order(), FoundSpread(number.sampled.value_or(SampledSpread{})),
          FoundSpread(number.controlled.value_or(CorrectedSpread{}))}) {
        must_be_deviation(one.sd_error, number.name);
        must_be_deviation(one.sd, number.name);
        must_be_share(one.yield, number.name);
    }
}

Histogram ScatteredNumber::histogram() const {
    return sampled && sampled->histogram ? *sampled->histogram : Histogram{};
}

ScatterFindings read_scatter(const std::string& text, const std::string& file) {
    return read_whole<ScatterFindings>(text, file, "samples");
}

} // namespace vrid
