#include <cmath>
#include <numbers>

#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"

namespace vrid {
namespace {

constexpr double least_listed = 5e-4; // of the variance that is shown
constexpr double least_error = 1e-6;  // of a share: below what is shown of it

std::string limits_words(const ScatteredNumber& number) {
    const std::string unit = number.quantity.unit.empty() ? "" : " " + number.quantity.unit;
    if (number.min && number.max) {
        return "between " + short_text(*number.min) + " and " + short_text(*number.max) + unit;
    }
    return number.min ? "above " + short_text(*number.min) + unit
                      : "below " + short_text(*number.max) + unit;
}

/// "about 1 board in 36 is outside"
std::string outside_words(double yield) {
    constexpr double none = 1e-6;
    const double out = 1 - yield;
    if (out < none) {
        return "fewer than 1 board in a million is outside";
    }
    return out > 0.5 ? "most boards are outside"
                     : "about 1 board in " + significant(1 / out, 2) + " is outside";
}

DataTable sources_table(const ScatteredNumber& number) {
    DataTable table{"what " + number.name + " scatters by",
                    {"source", "alone sd, " + number.quantity.unit, "variance, %",
                     "halved sd, " + number.quantity.unit, "halved yield"},
                    {}};
    for (const FoundSource& source : number.sources) {
        if (source.share >= least_listed) {
            table.rows.push_back(
                {source.source, significant(source.sd, 3), fixed(100 * source.share, 1),
                 significant(source.sd_if_halved, 3),
                 source.yield_if_halved ? percent_text(*source.yield_if_halved) : ""});
        }
    }
    return table;
}

DataTable spread_table(const ScatteredNumber& number) {
    DataTable table{"scatter of " + number.name + ", " + number.quantity.unit,
                    {"found by", "mean", "sd", "5 % below", "5 % above", "inside the limits"},
                    {}};
    const auto with_error = [](const std::string& text, double error) {
        return text + (error > 0 ? " +- " + significant(error, 2) : "");
    };
    const auto yield_of = [&](const FoundSpread& found) {
        const double error = found.yield_error.value_or(0);
        return with_error(percent_text(*found.yield), error > least_error ? 100 * error : 0);
    };
    const auto add = [&](const std::string& name, const FoundSpread& found) {
        table.rows.push_back({name, significant(found.mean, 5),
                              with_error(significant(found.sd, 3), found.sd_error),
                              significant(found.p5, 4), significant(found.p95, 4),
                              found.yield ? yield_of(found) : ""});
    };
    add("first order", number.first_order());
    if (number.controlled) {
        add("first order and samples", *number.controlled);
    }
    if (number.sampled) {
        add("samples alone", *number.sampled);
    }
    return table;
}

double below(const FoundSpread& spread, double value) {
    return std::erfc((spread.mean - value) / (spread.sd * std::numbers::sqrt2)) / 2;
}

DataTable histogram_table(const ScatteredNumber& number) {
    const Histogram& h = number.histogram();
    DataTable table{"samples of " + number.name, {"from", "to", "samples", "first order"}, {}};
    double all = 0;
    for (const double count : h.counts) {
        all += count;
    }
    for (std::size_t i = 0; i < h.counts.size(); ++i) {
        const double from = h.from + h.width * static_cast<double>(i);
        const double to = from + h.width;
        const double expected =
            all * (below(number.first_order(), to) - below(number.first_order(), from));
        table.rows.push_back(
            {significant(from, 5), significant(to, 5), fixed(h.counts[i], 0), fixed(expected, 1)});
    }
    return table;
}

} // namespace

std::string yield_words(const ScatteredNumber& number) {
    const FoundSpread first = number.first_order();
    const std::string unit = number.quantity.unit.empty() ? "" : " " + number.quantity.unit;
    std::string words = "90 % of boards lie from " + significant(first.p5, 4) + " to " +
                        significant(first.p95, 4) + unit + ", sd " + significant(first.sd, 3) +
                        unit + " (first order).";
    if (!first.yield || (!number.min && !number.max)) {
        return words + " The board file sets no limits, so there is no yield.";
    }
    words += " To first order " + percent_text(*first.yield) + " are " + limits_words(number) +
             ": " + outside_words(*first.yield) + ".";
    const FoundSpread* found = number.sampled ? &*number.sampled : nullptr;
    found = number.controlled ? &*number.controlled : found;
    if (found != nullptr && found->yield) {
        words += number.controlled ? " Corrected by solved samples " : " Of the samples ";
        words += percent_text(*found->yield) + " are";
        if (const auto& error = found->yield_error; error && *error > least_error) {
            words += ", give or take " + significant(100 * *error, 2) + " %";
        }
        words += ".";
    }
    return words;
}

std::string scatter_section(const ScatterFindings& found) {
    std::string html;
    for (std::size_t i = 0; i < found.numbers.size(); ++i) {
        const ScatteredNumber& number = found.numbers[i];
        const std::string id = "scatter" + std::to_string(i);
        html += number_head(number.name, number.quantity);
        const std::string picture = bell_picture(number, id + "b");
        if (picture.empty()) {
            html += "<p>It does not scatter.</p>\n";
            continue;
        }
        html += "<p>" + escaped(yield_words(number)) + "</p>\n<figure>" + picture +
                folded(spread_table(number)) +
                (number.histogram().counts.empty() ? "" : folded(histogram_table(number))) +
                sources_picture(number, id + "s") + folded(sources_table(number)) + "</figure>\n";
    }
    return html;
}

} // namespace vrid
