#include "bar_statistic.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <random>

#include "mesh/board/error.hpp"
#include "solver/edge.hpp"
#include "solver/study.hpp"

namespace vrid::tests {

namespace {

// Two solutions of one problem differ by rounding up to this share of the value.
constexpr double rounding = 1e-9;

double floor_of(const BarSample& sample) {
    return rounding * std::max(std::abs(sample.truth), 1e-6);
}

double ratio(const BarSample& sample) {
    return sample.bar / std::max(sample.error(), floor_of(sample));
}

StudyOptions setting(int degree) {
    StudyOptions options;
    options.degree = degree;
    options.threads = 1;
    return options;
}

std::vector<EdgeCondition> random_conditions(unsigned seed) {
    std::mt19937 random(seed);
    const auto share = [&] { return static_cast<double>(random()) / 4294967296.0; };
    std::vector<EdgeCondition> conditions(3);
    for (EdgeCondition& one : conditions) {
        one.side = share() < 0.5 ? Side::left : Side::right;
        one.tilt = (15 + 55 * share()) * std::numbers::pi / 180;
        one.force = 200 * std::pow(8, share());
        one.hardness = 5e7 * std::pow(1000, share());
        one.share = 0.3 + 0.4 * share();
    }
    return conditions;
}

} // namespace

double BarSample::error() const {
    return std::abs(value - truth);
}

bool BarSample::covered() const {
    return error() <= bar + floor_of(*this);
}

bool BarSample::covered_for_sure() const {
    return error() + truth_bar <= bar + floor_of(*this);
}

BarStatistic statistic(const std::vector<const BarSample*>& samples) {
    BarStatistic found;
    std::vector<double> ratios;
    double least = 0;
    for (const BarSample* sample : samples) {
        ++found.samples;
        found.coverage += sample->covered() ? 1 : 0;
        found.sure_coverage += sample->covered_for_sure() ? 1 : 0;
        if (sample->error() > floor_of(*sample) && sample->bar > floor_of(*sample)) {
            ratios.push_back(ratio(*sample));
        }
        if (found.worst == nullptr || ratio(*sample) < least) {
            found.worst = sample;
            least = ratio(*sample);
        }
    }
    found.coverage /= std::max(1, found.samples);
    found.sure_coverage /= std::max(1, found.samples);
    if (!ratios.empty()) {
        std::nth_element(ratios.begin(),
                         ratios.begin() + static_cast<std::ptrdiff_t>(ratios.size() / 2),
                         ratios.end());
        found.median_ratio = ratios[ratios.size() / 2];
    }
    return found;
}

std::vector<NamedStatistic> statistics(const std::vector<BarSample>& samples) {
    std::map<std::string, std::vector<const BarSample*>> families;
    std::map<std::string, std::vector<const BarSample*>> names;
    std::vector<const BarSample*> all;
    for (const BarSample& sample : samples) {
        families[sample.family + ", all"].push_back(&sample);
        names[sample.name].push_back(&sample);
        all.push_back(&sample);
    }
    std::vector<NamedStatistic> found{{"all", statistic(all)}};
    for (const auto& group : {families, names}) {
        for (const auto& [name, members] : group) {
            found.push_back({name, statistic(members)});
        }
    }
    return found;
}

std::size_t default_quads(const Board& board) {
    return prepare_study(board, setting(0))->mesh.quads.size();
}

std::vector<BarSample> study_samples(const Board& board, unsigned seed, int truth_degree) {
    const StudyResult shown = run_study(board, setting(0));
    const StudyResult truth = run_study(board, setting(truth_degree));
    std::vector<BarSample> samples;
    for (std::size_t i = 0; i < shown.cases.size(); ++i) {
        const CaseResult& one = shown.cases[i];
        for (std::size_t k = 0; k < one.numbers.size(); ++k) {
            const Quantity& printed = one.numbers[k].quantity;
            const Quantity& exact = truth.cases[i].numbers[k].quantity;
            const bool tone = printed.unit == Unit::frequency;
            samples.push_back({seed, tone ? "modes" : "static",
                               tone ? one.numbers[k].name : one.name, printed.value, printed.error,
                               exact.value, exact.error});
        }
    }
    return samples;
}

std::vector<BarSample> edge_samples(const Board& board, unsigned seed, int truth_degree) {
    EdgeOptions options;
    options.threads = 1;
    std::vector<BarSample> samples;
    try {
        const std::vector<EdgeCondition> conditions = random_conditions(seed);
        const EdgeResult shown = run_edge(board, conditions, options);
        options.degree = truth_degree;
        const EdgeResult truth = run_edge(board, conditions, options);
        for (std::size_t i = 0; i < conditions.size(); ++i) {
            const auto& exact = truth.conditions[i].numbers;
            for (std::size_t k = 0; k < shown.conditions[i].numbers.size() && k < exact.size();
                 ++k) {
                const NamedQuantity& printed = shown.conditions[i].numbers[k];
                if (printed.name != "balance") {
                    samples.push_back({seed, "edge", printed.name, printed.quantity.value,
                                       printed.quantity.error, exact[k].quantity.value,
                                       exact[k].quantity.error});
                }
            }
        }
    } catch (const InputError&) {
        samples.clear(); // the board cannot stand on its feet
    }
    return samples;
}

} // namespace vrid::tests
