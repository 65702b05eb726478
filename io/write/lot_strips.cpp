#include "io/write/lot_report.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "mesh/board/lists.hpp"
#include "solver/lot/change.hpp"
#include "solver/lot/control_charts.hpp"

namespace vrid {
namespace {

constexpr Index most_boards = 1000;
constexpr double ewma_weight = 0.2;
constexpr double cusum_slack = 0.5;
constexpr double cusum_signal = 5;

/// One board of each of `most_boards` equal runs: one that does not belong or that the change is
/// told by, else any: every so-manieth would show one press of three that take turns, and a mark
/// must stand on its own board's reading. All marked ones are among them.
std::vector<Index> chosen_boards(const LotFindings& found, Index count) {
    std::vector<Index> chosen = each_of(found.outliers, &LotOutlier::board);
    if (found.changed) {
        const FirstBoard& best = found.change.best();
        chosen.insert(chosen.end(), {best.first, best.from, best.to});
    }
    std::ranges::sort(chosen);
    const std::vector<Index> marked = chosen;
    const Index runs = std::min(count, most_boards);
    std::minstd_rand random; // the same boards every time
    for (Index i = 0; i < runs; ++i) {
        const Index from = i * count / runs;
        const Index to = (i + 1) * count / runs;
        const Index any = from + static_cast<Index>(random() % static_cast<unsigned>(to - from));
        const auto first = std::ranges::lower_bound(marked, from);
        if (first == marked.end() || *first >= to) {
            chosen.push_back(any);
        }
    }
    std::ranges::sort(chosen);
    chosen.erase(std::unique(chosen.begin(), chosen.end()), chosen.end());
    return chosen;
}

std::vector<double> line(const VectorXd& values, const std::vector<Index>& chosen, double per_si) {
    return each_of(chosen, [&](const Index i) { return values(i) * per_si; });
}

std::vector<std::string> chosen_words(const std::vector<std::string>& words,
                                      const std::vector<Index>& chosen) {
    return each_of(chosen, [&](const Index i) { return words[place_in(i)]; });
}

LotStrip number_strip(const LotReport& report, std::size_t k, const std::vector<Index>& chosen) {
    const LotNumber& number = report.findings.numbers[k];
    const LotName& name = report.numbers[k];
    const VectorXd readings = report.readings.value.row(static_cast<Index>(k)).transpose();
    VectorXd values = readings;
    for (const LotOutlier& outlier : report.findings.outliers) {
        values(outlier.board) = std::nan(""); // drawn, but not averaged
    }
    const double centre = number.found.cells > 0 ? number.found.mean : number.predicted;
    const Ewma chart = ewma(values, centre, ewma_weight, number.predicted_sd);
    return {name.name,
            name.unit,
            centre * name.per_si,
            line(readings, chosen, name.per_si),
            line(chart.line, chosen, name.per_si),
            line(chart.half_width, chosen, name.per_si)};
}

std::optional<LotSums> score_sums(const LotReport& report, const std::vector<Index>& chosen) {
    const LotFindings& found = report.findings;
    if (!found.changed) {
        return {};
    }
    LotModel model = report.model;
    for (std::size_t k = 0; k < found.numbers.size(); ++k) { // about what the lot was before
        if (found.numbers[k].found.cells > 0) {
            model.mean(static_cast<Index>(k)) = found.numbers[k].found.mean;
        }
    }
    const VectorXd score = value_score(model, lot_cells(model, report.readings),
                                       board_covariance(model), found.change.value, false);
    const Cusum sums = cusum(score, 0, cusum_slack, cusum_signal);
    LotSums all{report.values[place_in(found.change.value)].name,
                line(sums.upper, chosen, 1),
                line(sums.lower, chosen, 1),
                cusum_signal,
                {}};
    if (sums.signal) {
        all.signal = report.serials[place_in(*sums.signal)];
    }
    return all;
}

} // namespace

LotStrips lot_strips(const LotReport& report) {
    const std::vector<Index> chosen = chosen_boards(report.findings, report.readings.value.cols());
    LotStrips strips;
    strips.serials = chosen_words(report.serials, chosen);
    strips.dates = chosen_words(report.dates, chosen);
    for (const LotText& text : report.texts) {
        strips.texts.push_back({text.column, chosen_words(text.words, chosen)});
    }
    const auto place = [&](Index board) {
        const auto at = std::ranges::lower_bound(chosen, board);
        return static_cast<std::size_t>(at - chosen.begin());
    };
    const LotFindings& found = report.findings;
    for (const LotOutlier& outlier : found.outliers) {
        strips.outliers.push_back(place(outlier.board));
    }
    if (found.changed) {
        const FirstBoard& best = found.change.best();
        strips.change = std::array{place(best.first), place(best.from), place(best.to)};
    }
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        strips.numbers.push_back(number_strip(report, k, chosen));
    }
    strips.score = score_sums(report, chosen);
    return strips;
}

} // namespace vrid
