#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"
#include "tests/planted_strip.hpp"

namespace vrid::measure {

namespace {

constexpr double plain = 2000; // samples that 24 are to be worth

// What the standard errors of the document are, in those of `plain` samples without a model.
struct Worth {
    std::vector<double> deviation, yield; // one a number
};

Worth worth_of(const nlohmann::json& document) {
    Worth worth;
    for (const auto& [name, number] : document.at("numbers").items()) {
        if (!number.contains("controlled")) {
            continue;
        }
        const auto& found = number.at("controlled");
        const double sd = found.at("sd");
        if (sd >
            1e-9) { // less is rounding: the balance point of a board that is alike left and right
            worth.deviation.push_back(found.at("sd_error").get<double>() /
                                      (sd / std::sqrt(2 * plain)));
        }
        const double yield = found.value("yield", 1.0);
        if (yield > 0 && yield < 1) {
            worth.yield.push_back(found.at("yield_error").get<double>() /
                                  std::sqrt(yield * (1 - yield) / plain));
        }
    }
    return worth;
}

// By a number of which all is known: 200 seeds, intervals of 95 %.
Row coverage_row() {
    const tests::StripCoverage found = tests::planted_strip_coverage(200);
    const int least = *std::min_element(found.covered.begin(), found.covered.end());
    const int most = *std::max_element(found.covered.begin(), found.covered.end());
    return {5,
            "95 % intervals of mean, deviation, yield that hold the truth",
            std::to_string(least) + " to " + std::to_string(most) + " of 200",
            "180 to 199",
            least >= 180 && most < 200 ? Verdict::met : Verdict::not_met,
            {}};
}

} // namespace

std::vector<Row> scatter_rows(const Means& means) {
    const std::string board = means.example("nh-157-querwind");
    constexpr int samples = 24;
    std::vector<double> solves;
    Worth worth;
    for (int round = 0; round < 3; ++round) {
        const ProgramRun one = run_program({means.vrid, "solve", board, "--json"});
        const ProgramRun all = run_program(
            {means.vrid, "scatter", board, "--samples", std::to_string(samples), "--json"});
        if (one.status > 1 || all.status > 1 || one.status < 0 || all.status < 0) {
            return {not_here(5, "scatter", "25 solves", means.vrid + " does not run")};
        }
        solves.push_back(all.processor / one.processor);
        worth = worth_of(nlohmann::json::parse(all.out));
    }
    // the number worst off decides
    const auto worst = [](const std::vector<double>& all) {
        return std::vector<double>{*std::max_element(all.begin(), all.end())};
    };
    return {at_most(5, "scatter of 24 samples, derivatives included", solves, 25, "solves"),
            at_most(5, "worst error of a deviation, in those of 2000 samples",
                    worst(worth.deviation), 1),
            worth.yield.empty() ? not_here(5, "worst error of a yield, in those of 2000 samples",
                                           "at most 1", "every board is inside its limits")
                                : at_most(5, "worst error of a yield, in those of 2000 samples",
                                          worst(worth.yield), 1),
            coverage_row()};
}

} // namespace vrid::measure
