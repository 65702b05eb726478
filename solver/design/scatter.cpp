#include "solver/design/scatter.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <mutex>
#include <numeric>
#include <random>

#include "mesh/board/error.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

// One source for all stations of a row (of a layer's zone: of that layer), one for every other
// value.
std::vector<ScatterSource> sources_of(const std::vector<DesignValue>& values, const VectorXd& sd) {
    std::vector<ScatterSource> sources;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (sd(static_cast<Index>(i)) == 0) {
            continue;
        }
        const DesignId& id = values[i].id;
        auto found = sources.end();
        if (id.kind->form == DesignForm::station) {
            found = std::ranges::find_if(sources, [&](const ScatterSource& one) {
                return one.id.kind == id.kind && one.id.part == id.part;
            });
        }
        if (found == sources.end()) {
            found = sources.insert(found, {id, {}});
        }
        found->values.push_back(i);
    }
    return sources;
}

VectorXd deviations(const std::vector<DesignValue>& values,
                    const std::vector<Tolerance>& tolerances) {
    VectorXd sd = VectorXd::Zero(static_cast<Index>(values.size()));
    for (const Tolerance& tolerance : tolerances) {
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (values[i].id == tolerance.value) {
                sd(static_cast<Index>(i)) = tolerance.sd;
            }
        }
    }
    return sd;
}

NumberScatter scatter_of(const BoardNumber& number, const NumberLimits& limits,
                         const std::vector<ScatterSource>& sources, const VectorXd& sd) {
    NumberScatter result;
    result.nominal = number;
    result.min = limits.min;
    result.max = limits.max;
    constexpr double rounding = 1e-12; // of the variance: of an isotropic sheet's angle, say
    const VectorXd part = number.slope.cwiseProduct(sd);
    const double variance = part.squaredNorm();
    result.sd = std::sqrt(variance);
    const bool limited = limits.min || limits.max;
    const double value = number.quantity.value;
    if (limited) {
        result.yield = normal_share(value, result.sd, limits);
    }
    for (std::size_t s = 0; s < sources.size(); ++s) {
        double own = 0;
        for (const std::size_t i : sources[s].values) {
            own += part(static_cast<Index>(i)) * part(static_cast<Index>(i));
        }
        if (own <= rounding * variance) {
            continue;
        }
        SourceShare share{s, std::sqrt(own), own / variance, std::sqrt(variance - 0.75 * own), {}};
        if (limited) {
            share.yield_if_halved = normal_share(value, share.sd_if_halved, limits);
        }
        result.shares.push_back(share);
    }
    std::ranges::stable_sort(result.shares, std::greater<>{}, &SourceShare::share);
    return result;
}

// What is drawn: means of the values and their deviations, and which of all values they are.
struct Draw {
    SetValues mean;
    VectorXd sd;
    std::vector<Index> which;
};

Draw draw_of(const Board& board, const std::vector<Tolerance>& tolerances) {
    const std::vector<DesignValue> values = design_board(board).values;
    const VectorXd sd = deviations(values, tolerances);
    Draw of;
    std::vector<double> mean;
    for (Index i = 0; i < sd.size(); ++i) {
        if (sd(i) > 0) {
            const DesignValue& value = values[static_cast<std::size_t>(i)];
            of.which.push_back(i);
            of.mean.ids.push_back(value.id);
            mean.push_back(value.value);
        }
    }
    of.mean.values = Eigen::Map<VectorXd>(mean.data(), static_cast<Index>(mean.size()));
    of.sd = sd(of.which);
    return of;
}

struct DrawnBoard {
    Board board;
    VectorXd steps; // of the values, in their deviations
    int tries = 0;
};

// A sample's own stream of numbers, the same whatever thread draws it. A board that cannot be
// (Poisson's ratio above a half, say) is drawn again.
DrawnBoard drawn_board(const Draw& of, const BoardWith& board_with, std::uint64_t seed,
                       int sample) {
    constexpr int most_tries = 200;
    std::seed_seq sequence{static_cast<std::uint32_t>(seed),
                           static_cast<std::uint32_t>(seed >> 32U),
                           static_cast<std::uint32_t>(sample)};
    std::mt19937_64 random(sequence);
    std::normal_distribution<double> normal;
    SetValues drawn = of.mean;
    VectorXd steps(of.sd.size());
    for (int tries = 1;; ++tries) {
        for (double& step : steps) {
            step = normal(random);
        }
        drawn.values = of.mean.values + of.sd.cwiseProduct(steps);
        try {
            return {board_with(drawn), steps, tries};
        } catch (const InputError&) {
            if (tries == most_tries) {
                throw; // next to no board with these tolerances can be
            }
        }
    }
}

// Of a number: the linear model's step in its own deviations for one in each value's.
VectorXd control_of(const NumberScatter& number, const Draw& of) {
    const VectorXd slope = number.nominal.slope(of.which);
    return number.sd > 0 ? VectorXd(slope.cwiseProduct(of.sd) / number.sd)
                         : VectorXd(VectorXd::Zero(of.sd.size()));
}

// Samples of all numbers, and what the linear models' controls were of each.
struct Samples {
    std::vector<std::vector<double>> values, controls, across; // number by number
    int drawn_again = 0;
};

struct Sampling {
    Draw of;
    const BoardWith& board_with;
    const SampleOptions& options;
    const EdgeCondition& edge;
};

Samples solve_samples(const Scatter& scatter, const Session& session, const Sampling& sampling) {
    std::vector<NumberId> requests;
    std::vector<VectorXd> controls;
    std::vector<VectorXd> across;
    for (const NumberScatter& number : scatter.numbers) {
        requests.push_back(number.nominal.request);
        controls.push_back(control_of(number, sampling.of));
        across.push_back(across_two(controls.back()));
    }
    Session one = session; // has the meshes of first_order_scatter
    Settings alone = session.settings();
    alone.progress = nullptr;
    alone.threads = 1;
    one.use(alone);
    const int count = sampling.options.samples;
    const std::vector<double> none(static_cast<std::size_t>(count));
    Samples found{{requests.size(), none}, {requests.size(), none}, {}};
    for (const VectorXd& two : across) {
        found.across.emplace_back(two.size() > 0 ? none.size() : 0);
    }
    std::mutex telling;
    int done = 0;
    for_each_in_parallel(count, session.settings().thread_count(), [&](int sample) {
        const DrawnBoard drawn =
            drawn_board(sampling.of, sampling.board_with, sampling.options.seed, sample);
        const BoardNumbers numbers =
            one.on_mesh(drawn.board).numbers(requests, {false, false, sampling.edge});
        const auto at = static_cast<std::size_t>(sample);
        for (std::size_t k = 0; k < requests.size(); ++k) {
            found.values[k][at] = numbers.numbers[k].quantity.value;
            found.controls[k][at] = controls[k].dot(drawn.steps);
            if (across[k].size() > 0) {
                found.across[k][at] = across[k].dot(drawn.steps);
            }
        }
        const std::scoped_lock lock(telling);
        ++done;
        found.drawn_again += drawn.tries > 1 ? 1 : 0;
        session.settings().tell("samples", static_cast<double>(done) / count);
    });
    return found;
}

void summarise(NumberScatter& number, const std::vector<double>& controls,
               const std::vector<double>& across, std::vector<double> samples) {
    number.controlled = controlled_spread({number.nominal.quantity.value, number.sd}, controls,
                                          samples, {number.min, number.max}, across);
    number.sampled = std::move(samples);
    std::vector<double>& all = number.sampled;
    std::ranges::sort(all);
    const auto count = static_cast<double>(all.size());
    number.sampled_mean = std::accumulate(all.begin(), all.end(), 0.0) / count;
    double squares = 0;
    int inside = 0;
    for (const double value : all) {
        squares += (value - number.sampled_mean) * (value - number.sampled_mean);
        inside += (!number.min || value >= *number.min) && (!number.max || value <= *number.max);
    }
    number.sampled_sd = std::sqrt(squares / std::max(1.0, count - 1));
    if (number.min || number.max) {
        number.sampled_yield = inside / count;
    }
}

} // namespace

double normal_share(double mean, double sd, const NumberLimits& limits) {
    const auto below = [&](double limit) {
        return sd > 0 ? normal_below((limit - mean) / sd) : (mean <= limit ? 1.0 : 0.0);
    };
    return (limits.max ? below(*limits.max) : 1) - (limits.min ? below(*limits.min) : 0);
}

double percentile(const std::vector<double>& sorted, double p) {
    const double place = p * static_cast<double>(sorted.size() - 1);
    const auto low = static_cast<std::size_t>(place);
    const std::size_t high = std::min(low + 1, sorted.size() - 1);
    return sorted[low] + (place - static_cast<double>(low)) * (sorted[high] - sorted[low]);
}

Scatter first_order_scatter(Session& session, const std::vector<NumberId>& requests,
                            const std::vector<NumberLimits>& limits,
                            const std::vector<Tolerance>& tolerances, const EdgeCondition& edge) {
    const std::vector<DesignValue> values = design_board(session.board()).values;
    const VectorXd sd = deviations(values, tolerances);
    std::vector<LineValue> lines;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (sd(static_cast<Index>(i)) > 0 && values[i].kind().moves_lines) {
            lines.push_back({values[i].id, {}});
        }
    }
    const BoardNumbers numbers = session.numbers(requests, {true, false, edge, lines});
    Scatter scatter{sources_of(values, sd), {}, numbers.warnings};
    for (std::size_t k = 0; k < requests.size(); ++k) {
        scatter.numbers.push_back(scatter_of(numbers.numbers[k], limits[k], scatter.sources, sd));
    }
    return scatter;
}

void add_samples(Scatter& scatter, Session& session, const std::vector<Tolerance>& tolerances,
                 const BoardWith& board_with, const SampleOptions& samples,
                 const EdgeCondition& edge) {
    const Samples found = solve_samples(
        scatter, session, {draw_of(session.board(), tolerances), board_with, samples, edge});
    if (found.drawn_again > 0) {
        scatter.warnings.push_back(
            std::to_string(found.drawn_again) + " of " + std::to_string(samples.samples) +
            " boards were drawn again, as no such board can be: a tolerance is very wide, and the "
            "standard errors do not cover that");
    }
    for (std::size_t k = 0; k < scatter.numbers.size(); ++k) {
        summarise(scatter.numbers[k], found.controls[k], found.across[k], found.values[k]);
    }
}

} // namespace vrid
