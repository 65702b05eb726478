#include "io/write/lot_strips.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"
#include "solver/lot/change.hpp"
#include "solver/lot/control_charts.hpp"

namespace vrid {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr int strip_digits = 6;
constexpr Index most_boards = 1000;
constexpr double ewma_weight = 0.2;
constexpr double cusum_slack = 0.5;
constexpr double cusum_signal = 5;

std::vector<Index> chosen_boards(Index count) {
    std::vector<Index> chosen;
    const Index shown = std::min(count, most_boards);
    for (Index i = 0; i < shown; ++i) {
        chosen.push_back(i * count / shown);
    }
    return chosen;
}

Json line(const VectorXd& values, const std::vector<Index>& chosen, double per_si) {
    Json all = Json::array();
    for (const Index i : chosen) {
        all.push_back(std::isfinite(values(i))
                          ? Json(round_significant(values(i) * per_si, strip_digits))
                          : Json());
    }
    return all;
}

Json texts(const std::vector<std::string>& words, const std::vector<Index>& chosen) {
    Json all = Json::array();
    for (const Index i : chosen) {
        all.push_back(words[static_cast<std::size_t>(i)]);
    }
    return all;
}

Json number_strip(const LotReport& report, std::size_t k, const std::vector<Index>& chosen) {
    const LotNumber& number = report.findings.numbers[k];
    const LotName& name = report.numbers[k];
    const auto row = static_cast<Index>(k);
    VectorXd values = report.readings.value.row(row).transpose();
    for (const LotOutlier& outlier : report.findings.outliers) {
        values(outlier.board) = std::nan(""); // drawn, but not averaged
    }
    const double centre = number.found.cells > 0 ? number.found.mean : number.predicted;
    const Ewma chart = ewma(values, centre, ewma_weight, number.predicted_sd);
    return {{"number", name.name},
            {"unit", name.unit},
            {"centre", round_significant(centre * name.per_si, strip_digits)},
            {"readings", line(report.readings.value.row(row).transpose(), chosen, name.per_si)},
            {"ewma", line(chart.line, chosen, name.per_si)},
            {"half_width", line(chart.half_width, chosen, name.per_si)}};
}

Json score_strip(const LotReport& report, const std::vector<Index>& chosen) {
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
    Json strip{{"value", report.values[static_cast<std::size_t>(found.change.value)].name},
               {"upper", line(sums.upper, chosen, 1)},
               {"lower", line(sums.lower, chosen, 1)},
               {"limit", cusum_signal},
               {"signal", Json()}};
    if (sums.signal) {
        strip["signal"] = report.serials[static_cast<std::size_t>(*sums.signal)];
    }
    return strip;
}

} // namespace

Json lot_strips_json(const LotReport& report) {
    const std::vector<Index> chosen = chosen_boards(report.readings.value.cols());
    Json strips;
    strips["serials"] = texts(report.serials, chosen);
    strips["dates"] = texts(report.dates, chosen);
    strips["texts"] = Json::array();
    for (const LotText& text : report.texts) {
        strips["texts"].push_back({{"column", text.name}, {"words", texts(text.words, chosen)}});
    }
    const auto place = [&](Index board) {
        return std::lower_bound(chosen.begin(), chosen.end(), board) - chosen.begin();
    };
    const LotFindings& found = report.findings;
    strips["outliers"] = Json::array();
    for (const LotOutlier& outlier : found.outliers) {
        strips["outliers"].push_back(place(outlier.board));
    }
    strips["change"] = Json();
    if (found.changed) {
        const FirstBoard& best = found.change.best();
        strips["change"] = {place(best.first), place(best.from), place(best.to)};
    }
    strips["numbers"] = Json::array();
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        strips["numbers"].push_back(number_strip(report, k, chosen));
    }
    strips["score"] = score_strip(report, chosen);
    return strips;
}

} // namespace vrid
