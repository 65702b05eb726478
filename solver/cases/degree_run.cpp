#include "solver/cases/degree_run.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <numeric>
#include <sstream>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/system/element_dofs.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

namespace {

using Clock = std::chrono::steady_clock;

// The residual of forces is cheap but has a floor: u rounded to double already leaves
// eps ||K| |u||, 1e-9 of the load on thin plates at 2e4 unknowns, 5e-8 at 1e6, above 1e-6 under a
// point force at thickness / span = 1e-4, however exact u is. Where refinement does not bring it
// below what is wanted, the error itself is measured: the energy norm of the last correction.
constexpr double residual_wanted = 1e-8;
constexpr double residual_limit = 1e-6;

double since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

using SharedFactor = std::shared_ptr<const Factor>;

std::vector<char> changing(const std::vector<std::vector<char>>& supports) {
    std::vector<char> change(supports.front().size(), 0);
    for (const std::vector<char>& fixed : supports) {
        for (std::size_t k = 0; k < change.size(); ++k) {
            change[k] |= static_cast<char>(fixed[k] != supports.front()[k]);
        }
    }
    return change;
}

// The earlier factor whose supports differ in the fewest unknowns.
SharedFactor nearest(const std::vector<SharedFactor>& known, const std::vector<char>& fixed) {
    SharedFactor best;
    int least = 0;
    for (const SharedFactor& factor : known) {
        const int differ = std::inner_product(fixed.begin(), fixed.end(), factor->fixed.begin(), 0,
                                              std::plus<>(), std::not_equal_to<>());
        if (!best || differ < least) {
            best = factor;
            least = differ;
        }
    }
    return best;
}

// All cases side by side: one column each.
struct CaseColumns {
    MatrixXd u;       // motion so far
    MatrixXd Ku;      // what it takes
    MatrixXd missing; // force that the free unknowns still lack
    VectorXd scale;   // norm of the first lack
    VectorXd error;   // of u before the last step, energy norm relative to that of u
};

void update_missing(const PlateModel& model, const std::vector<Loading>& loadings, int threads,
                    CaseColumns& columns) {
    columns.Ku = internal_forces(model, columns.u, threads);
    for (std::size_t i = 0; i < loadings.size(); ++i) {
        const auto c = static_cast<Index>(i);
        columns.missing.col(c) = loadings[i].force - columns.Ku.col(c);
        clear_fixed(loadings[i].fixed, columns.missing.col(c));
    }
}

CaseColumns start_columns(const PlateModel& model, const std::vector<Loading>& loadings,
                          int threads) {
    const auto count = static_cast<Index>(loadings.size());
    CaseColumns columns;
    columns.u.resize(model.unknowns(), count);
    columns.missing.resize(model.unknowns(), count);
    for (std::size_t i = 0; i < loadings.size(); ++i) {
        columns.u.col(static_cast<Index>(i)) = loadings[i].motion;
    }
    update_missing(model, loadings, threads, columns);
    columns.scale = columns.missing.colwise().norm().transpose();
    columns.error = VectorXd::Constant(count, 1);
    return columns;
}

// A step of the columns `which`.
void add_step(const std::vector<SharedFactor>& factors, const std::vector<std::size_t>& which,
              int threads, CaseColumns& columns) {
    MatrixXd missing(columns.u.rows(), static_cast<Index>(which.size()));
    std::vector<const Factor*> own;
    for (std::size_t i = 0; i < which.size(); ++i) {
        missing.col(static_cast<Index>(i)) = columns.missing.col(static_cast<Index>(which[i]));
        own.push_back(factors[which[i]].get());
    }
    const MatrixXd step = solve(own, missing, threads);
    for (std::size_t i = 0; i < which.size(); ++i) {
        const auto c = static_cast<Index>(which[i]);
        const auto change = step.col(static_cast<Index>(i));
        columns.error(c) = std::sqrt(std::abs(columns.missing.col(c).dot(change)) /
                                     std::abs(columns.u.col(c).dot(columns.Ku.col(c))));
        columns.u.col(c) += change;
    }
}

double residual(const CaseColumns& columns, std::size_t loading) {
    const auto c = static_cast<Index>(loading);
    return columns.missing.col(c).norm() / columns.scale(c);
}

// Of the force where that is small, otherwise of the motion (the last step was a refinement then).
double smaller_residual(const CaseColumns& columns, std::size_t loading) {
    const double force = residual(columns, loading);
    const double motion = columns.error(static_cast<Index>(loading));
    return force > residual_wanted ? std::min(force, motion) : force;
}

CaseSolution finished(const CaseColumns& columns, const Loading& loading, std::size_t i) {
    const auto c = static_cast<Index>(i);
    CaseSolution solution{0, columns.u.col(c), smaller_residual(columns, i)};
    if (!(solution.residual < residual_limit)) {
        std::ostringstream text;
        text << "relative residual " << solution.residual << " is above " << residual_limit;
        throw SolveError("solution", text.str());
    }
    // Both forms are stationary at the solution: rounding in u enters squared.
    const double energy = solution.u.dot(columns.Ku.col(c));
    const double work = loading.force.dot(solution.u);
    solution.stiffness = work != 0 ? 1 / (2 * work - energy) : energy;
    return solution;
}

} // namespace

EliminationTree elimination_order(const Numbering& numbering, const std::vector<double>& stations) {
    TreeOptions options;
    options.stations = stations;
    return build_tree(element_dofs(numbering), options);
}

std::vector<SharedFactor> factorise_supports(const PlateModel& model,
                                             const std::vector<std::vector<char>>& supports,
                                             const EliminationTree& tree, SolveMeans means,
                                             Seconds& seconds) {
    if (supports.empty()) {
        return {};
    }
    const auto start = Clock::now();
    std::atomic<std::int64_t> assembling{0};
    const ElementStiffness stiffness = [&](int element, MatrixXd& K) {
        const auto begin = Clock::now();
        quad_stiffness(model, element, K);
        assembling +=
            std::chrono::duration_cast<std::chrono::nanoseconds>(Clock::now() - begin).count();
    };
    FactorOptions options;
    options.means = means;
    options.may_change = changing(supports);
    std::vector<SharedFactor> factors;
    if (means.progress) { // the first is most of the work: the others share what no support touches
        options.means.progress = [&](double share) {
            const double others = supports.size() > 1 ? 0.3 : 0;
            const auto before = static_cast<double>(factors.size());
            means.progress(factors.empty() ? (1 - others) * share
                                           : 1 - others +
                                                 others * (before - 1 + share) /
                                                     (static_cast<double>(supports.size()) - 1));
        };
    }
    for (const std::vector<char>& fixed : supports) {
        const SharedFactor close = nearest(factors, fixed);
        if (close && close->fixed == fixed) {
            factors.push_back(close);
        } else {
            options.shared = close.get();
            factors.push_back(
                std::make_shared<const Factor>(factorise(tree, stiffness, fixed, options)));
        }
    }
    const double assemble = 1e-9 * static_cast<double>(assembling) / means.threads;
    seconds["assemble"] += assemble;
    seconds["factor"] += since(start) - assemble;
    return factors;
}

std::vector<CaseSolution> solve_loadings(const PlateModel& model,
                                         const std::vector<Loading>& loadings,
                                         const EliminationTree& tree, int threads,
                                         Seconds& seconds) {
    const std::vector<std::vector<char>> supports = each_of(loadings, &Loading::fixed);
    return solve_loadings(model, loadings,
                          factorise_supports(model, supports, tree, {threads}, seconds), threads,
                          seconds);
}

std::vector<CaseSolution> solve_loadings(const PlateModel& model,
                                         const std::vector<Loading>& loadings,
                                         const std::vector<SharedFactor>& factors, int threads,
                                         Seconds& seconds) {
    if (loadings.empty()) {
        return {};
    }
    const auto start = Clock::now();
    CaseColumns columns = start_columns(model, loadings, threads);
    for (int round = 0; round < 3; ++round) {
        std::vector<std::size_t> wanted;
        for (std::size_t i = 0; i < loadings.size(); ++i) {
            if (round == 0 || residual(columns, i) > residual_wanted) {
                wanted.push_back(i);
            }
        }
        if (wanted.empty()) {
            break;
        }
        add_step(factors, wanted, threads, columns);
        update_missing(model, loadings, threads, columns);
    }
    std::vector<CaseSolution> solutions;
    for (std::size_t i = 0; i < loadings.size(); ++i) {
        solutions.push_back(finished(columns, loadings[i], i));
    }
    seconds["solve"] += since(start);
    return solutions;
}

} // namespace vrid
