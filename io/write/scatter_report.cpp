#include "io/write/scatter_report.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/caution.hpp"
#include "io/write/design_path.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/number_name.hpp"
#include "io/write/scatter_json.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

// Its path; for all stations of a row together what they have in common.
std::string source_name(const ScatterSource& source) {
    const std::string path = path_of(source.id);
    return source.id.kind->form == DesignForm::station ? path.substr(0, path.rfind('[')) : path;
}

constexpr int standard_error_digits = 3;
constexpr double tail = 0.05;              // percentiles at 5 and 95
constexpr double normal_tail = 1.644854;   // of a normal distribution, in deviations
constexpr double least_share = 5e-4;       // of the variance that a table shows
constexpr std::size_t fewest_binned = 40;  // samples that a histogram is worth drawing of
constexpr std::size_t telling_alone = 100; // samples that tell something without the linear model

double in_bench(const NumberScatter& number, double si) {
    return si * bench_unit(number.nominal.quantity.unit).per_si;
}

std::string percent_text(double share) {
    return fixed(100 * share, share > 0.9995 || share < 0.0005 ? 2 : 1) + " %";
}

std::string limits_text(const NumberScatter& number) {
    const auto side = [&](const char* word, const std::optional<double>& limit) {
        return limit ? std::string(word) + significant(in_bench(number, *limit), 4) : "";
    };
    const std::string low = side("from ", number.min);
    const std::string high = side("to ", number.max);
    return low + (low.empty() || high.empty() ? "" : " ") + high;
}

// "9.539 +- 0.003", with a standard error; without one six digits at most.
std::string value_text(double value, double error, int digits) {
    const RoundedNumber number = rounded(value, error);
    return number.error.empty() ? significant(value, digits) : number.value + " +- " + number.error;
}

std::string yield_text(const Estimate& yield) {
    const double percent = 100 * yield.value;
    const double error = 100 * yield.error;
    return error < 1e-4 ? percent_text(yield.value) : value_text(percent, error, 4) + " %";
}

// One line about one way of finding the scatter; yields and errors where they are known.
std::string line(const NumberScatter& number, const std::string& how, const Estimate& mean,
                 const Estimate& sd, const std::array<double, 2>& ends,
                 const std::optional<Estimate>& yield) {
    const std::string unit = bench_unit(number.nominal.quantity.unit).name;
    const auto shown = [&](const Estimate& one, int count) {
        return value_text(in_bench(number, one.value), in_bench(number, one.error), count);
    };
    std::string text = "  " + how + ": " + shown(mean, 5) + ", sd " + shown(sd, 3) +
                       (unit.empty() ? "" : " ") + unit;
    if (mean.value != 0 && !is_position(number.nominal.request)) {
        text += " (" + significant(std::abs(100 * sd.value / mean.value), 3) + " %)";
    }
    text += ", 90 % of boards from " + significant(in_bench(number, ends[0]), 4) + " to " +
            significant(in_bench(number, ends[1]), 4);
    if (yield) {
        text += "; inside the limits " + yield_text(*yield);
    }
    return text + "\n";
}

std::array<double, 2> normal_ends(const NumberScatter& number) {
    const double value = number.nominal.quantity.value;
    return {value - normal_tail * number.sd, value + normal_tail * number.sd};
}

std::array<double, 2> sampled_ends(const NumberScatter& number) {
    return {percentile(number.sampled, tail), percentile(number.sampled, 1 - tail)};
}

// Plain samples: of mean, deviation (of a normal distribution) and share.
Estimate sampled_mean(const NumberScatter& number) {
    return {number.sampled_mean,
            number.sampled_sd / std::sqrt(static_cast<double>(number.sampled.size()))};
}

Estimate sampled_sd(const NumberScatter& number) {
    const auto count = static_cast<double>(number.sampled.size());
    return {number.sampled_sd, number.sampled_sd / std::sqrt(2 * (count - 1))};
}

std::optional<Estimate> sampled_yield(const NumberScatter& number) {
    if (!number.sampled_yield) {
        return {};
    }
    const double yield = *number.sampled_yield;
    return Estimate{yield,
                    std::sqrt(yield * (1 - yield) / static_cast<double>(number.sampled.size()))};
}

// What the samples say: with the linear model, and alone where they are many.
std::string sampled_lines(const NumberScatter& number) {
    if (!number.controlled) {
        return "";
    }
    const ControlledSpread& found = *number.controlled;
    const std::string count = std::to_string(number.sampled.size()) + " samples";
    std::string text =
        line(number, "with " + count, found.mean, found.sd, {found.p5, found.p95}, found.yield);
    if (number.sampled.size() >= telling_alone) {
        text += line(number, count + " alone", sampled_mean(number), sampled_sd(number),
                     sampled_ends(number), sampled_yield(number));
    }
    return text;
}

// Nothing that scatters moves it, and no sample found it elsewhere.
bool is_still(const NumberScatter& number) {
    constexpr double rounding = 1e-12;
    const double least = rounding * std::abs(number.nominal.quantity.value);
    return number.sd <= least && (number.sampled.empty() || number.sampled_sd <= least);
}

constexpr const char* legend =
    "\nfirst order: by the derivatives alone. with samples: only what they differ by from that is "
    "sampled, so a few do\n"
    "the work of thousands. +- there is one standard error: sampling only, not the tolerances.\n";

Table source_table(const ScatterReport& report, const NumberScatter& number, std::size_t rows) {
    const std::string unit = bench_unit(number.nominal.quantity.unit).name;
    Table table{{left("source"), decimal("alone", "sd, " + unit), decimal("variance", "%"),
                 decimal("halved", "sd, " + unit), decimal("halved", "yield")}};
    for (const SourceShare& share : number.shares) {
        if (table.rows.size() == rows || share.share < least_share) {
            break;
        }
        table.rows.push_back({source_name(report.scatter.sources[share.source]),
                              significant(in_bench(number, share.sd), 3),
                              fixed(100 * share.share, 1),
                              significant(in_bench(number, share.sd_if_halved), 3),
                              share.yield_if_halved ? percent_text(*share.yield_if_halved) : ""});
    }
    return table;
}

std::vector<FoundSource> found_sources(const ScatterReport& report, const NumberScatter& number) {
    std::vector<FoundSource> all;
    for (const SourceShare& share : number.shares) {
        all.push_back({source_name(report.scatter.sources[share.source]),
                       in_bench(number, share.sd), share.share,
                       in_bench(number, share.sd_if_halved), share.yield_if_halved});
    }
    return all;
}

// Samples by equal bins from the least to the greatest; nothing when they are few or all the same.
std::optional<Histogram> histogram_of(const NumberScatter& number) {
    constexpr double most_bins = 40;
    const double low = number.sampled.front();
    const auto count = static_cast<double>(number.sampled.size());
    const double bins = std::clamp(std::round(std::sqrt(count)), 4.0, most_bins);
    const double width = (number.sampled.back() - low) / bins;
    if (!(width > 0) || number.sampled.size() < fewest_binned) {
        return {};
    }
    std::vector<int> counts(static_cast<std::size_t>(bins), 0);
    for (const double value : number.sampled) {
        ++counts[static_cast<std::size_t>(std::min((value - low) / width, bins - 1))];
    }
    return Histogram{in_bench(number, low), in_bench(number, width), counts};
}

template <class Spread>
Spread found_spread(const NumberScatter& number, const Estimate& mean, const Estimate& sd,
                    const std::array<double, 3>& ends, const std::optional<Estimate>& yield) {
    const auto error = [](double value) { return round_significant(value, standard_error_digits); };
    Spread all;
    all.mean = in_bench(number, mean.value);
    all.mean_error = error(in_bench(number, mean.error));
    all.sd = in_bench(number, sd.value);
    all.sd_error = error(in_bench(number, sd.error));
    all.p5 = in_bench(number, ends[0]);
    all.p50 = in_bench(number, ends[1]);
    all.p95 = in_bench(number, ends[2]);
    if (yield) {
        all.yield = yield->value;
        all.yield_error = error(yield->error);
    }
    return all;
}

ScatteredNumber found_number(const ScatterReport& report, const NumberScatter& number) {
    const auto bound = [&](const std::optional<double>& limit) {
        return limit ? std::optional(in_bench(number, *limit)) : std::nullopt;
    };
    const auto ends = normal_ends(number);
    ScatteredNumber all{number_name(number.nominal.request),
                        {to_bench(number.nominal.quantity)},
                        in_bench(number, number.sd),
                        in_bench(number, ends[0]),
                        in_bench(number, ends[1]),
                        in_bench(number, number.nominal.quantity.value),
                        bound(number.min),
                        bound(number.max),
                        number.yield,
                        found_sources(report, number)};
    if (!number.sampled.empty()) {
        const auto at = sampled_ends(number);
        all.sampled = found_spread<SampledSpread>(number, sampled_mean(number), sampled_sd(number),
                                                  {at[0], percentile(number.sampled, 0.5), at[1]},
                                                  sampled_yield(number));
        all.sampled->histogram = histogram_of(number);
    }
    if (const auto& found = number.controlled) {
        all.controlled = found_spread<CorrectedSpread>(
            number, found->mean, found->sd, {found->p5, found->p50, found->p95}, found->yield);
        if (found->plain_samples > 0) {
            all.controlled->plain_samples =
                round_significant(found->plain_samples, standard_error_digits);
        }
    }
    return all;
}

} // namespace

std::string scatter_text(const ScatterReport& report, std::size_t rows) {
    std::string all = report.board.name + ": how its numbers scatter from board to board\n" +
                      condition_line(report.condition);
    for (const NumberScatter& number : report.scatter.numbers) {
        all += "\n" + number_name(number.nominal.request) + " = " +
               text(to_bench(number.nominal.quantity));
        const std::string limits = limits_text(number);
        all += (limits.empty() ? "" : ", limits " + limits) + "\n";
        if (is_still(number)) {
            all += "  it does not scatter\n";
            continue;
        }
        all += line(number, "first order", {number.nominal.quantity.value, 0}, {number.sd, 0},
                    normal_ends(number),
                    number.yield ? std::optional(Estimate{*number.yield, 0}) : std::nullopt);
        all += sampled_lines(number);
        const Table table = source_table(report, number, rows);
        all += table.rows.empty() ? "" : text(table);
    }
    return all + (report.samples.samples > 0 ? legend : "");
}

std::string scatter_json(const ScatterReport& report) {
    ScatterFindings all;
    all.program = program_name();
    all.board = board_file_entry(report.board, report.set);
    all.samples = report.samples.samples;
    all.seed = report.samples.seed;
    all.edge = {report.condition};
    all.warnings = report.scatter.warnings;
    for (const NumberScatter& number : report.scatter.numbers) {
        all.numbers.push_back(found_number(report, number));
    }
    return json_text(written(all));
}

} // namespace vrid
