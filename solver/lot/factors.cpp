#include "solver/lot/factors.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include <Eigen/Cholesky>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include "solver/lot/tails.hpp"
#include "solver/system/dense_solve.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

constexpr double within = 3.841459; // 95 % of chi-square with one degree
constexpr int bits = 20;

// The deviance by the root of the factor: in it the likelihood is nearly as wide everywhere.
class Profile {
  public:
    Profile(const LotModel& model, const LotCells& cells, const std::vector<PatternSums>& sums,
            std::size_t group)
        : cells_(cells), sums_(sums), part_(group_covariance(model, group)),
          rest_(board_covariance(model) - part_) {}

    [[nodiscard]] double operator()(double root) const {
        return restricted_deviance(cells_, sums_, rest_ + root * root * part_);
    }

  private:
    const LotCells& cells_;
    const std::vector<PatternSums>& sums_;
    MatrixXd part_, rest_;
};

struct Least {
    double root = 0, deviance = 0;
};

Least least_of(const Profile& profile) {
    constexpr std::array grid{0.0, 0.4, 0.7, 1.0, 1.3, 1.7, 2.2, 3.0, 4.5, 7.0, 12.0, 25.0, 60.0};
    std::array<double, grid.size()> at{};
    std::ranges::transform(grid, at.begin(), profile);
    const auto best = static_cast<std::size_t>(std::ranges::min_element(at) - at.begin());
    std::uintmax_t most = 60;
    const auto [root, deviance] = boost::math::tools::brent_find_minima(
        profile, grid[best == 0 ? 0 : best - 1], grid[std::min(best + 1, grid.size() - 1)], bits,
        most);
    return deviance < at[best] ? Least{root, deviance} : Least{grid[best], at[best]};
}

// Where the deviance has risen to the bound, between two roots that hold it.
double crossing(const Profile& profile, double bound, double from, double to) {
    std::uintmax_t most = 60;
    const auto [a, b] = boost::math::tools::toms748_solve(
        [&](double root) { return profile(root) - bound; }, from, to,
        boost::math::tools::eps_tolerance<double>(bits), most);
    return (a + b) / 2;
}

} // namespace

std::optional<GroupFactor> group_factor(const LotModel& model, const LotCells& cells,
                                        const std::vector<PatternSums>& sums, std::size_t group) {
    if (group_covariance(model, group).diagonal().maxCoeff() <= 0) {
        return std::nullopt;
    }
    const Profile profile(model, cells, sums, group);
    const Least least = least_of(profile);
    const double bound = least.deviance + within;
    GroupFactor found;
    found.group = group;
    found.factor = least.root * least.root;
    found.p = chi2_tail(profile(1) - least.deviance, 1);
    if (least.root > 0 && profile(0) > bound) {
        const double low = crossing(profile, bound, 0, least.root);
        found.low = low * low;
    }
    constexpr double endless = 1e3;
    double beyond = std::max(1.0, 1.5 * least.root);
    while (profile(beyond) < bound && beyond < endless) {
        beyond *= 1.7;
    }
    if (beyond < endless) {
        const double high = crossing(profile, bound, least.root, beyond);
        found.high = high * high;
    }
    return found;
}

std::vector<GroupFactor> group_factors(const LotModel& model, const LotCells& cells, int threads) {
    const std::vector<PatternSums> sums = pattern_sums(cells);
    std::vector<std::optional<GroupFactor>> found(model.groups);
    for_each_in_parallel(static_cast<int>(model.groups), threads, [&](int group) {
        const auto g = static_cast<std::size_t>(group);
        found[g] = group_factor(model, cells, sums, g);
    });
    std::vector<GroupFactor> all;
    std::vector<double> p;
    for (const std::optional<GroupFactor>& one : found) {
        if (one) {
            all.push_back(*one);
            p.push_back(one->p);
        }
    }
    const std::vector<double> together = holm(p);
    for (std::size_t i = 0; i < all.size(); ++i) {
        all[i].holm = together[i];
    }
    return all;
}

MatrixXd with_factor(const LotModel& model, std::size_t group, double factor) {
    return board_covariance(model) + (factor - 1) * group_covariance(model, group);
}

namespace {

// Slope and information of the restricted likelihood by the factors, at V.
struct Scoring {
    VectorXd slope;
    MatrixXd information;
};

Scoring scoring_at(const LotCells& cells, const std::vector<PatternSums>& sums,
                   const std::vector<MatrixXd>& parts, const MatrixXd& V) {
    const auto count = static_cast<Index>(parts.size());
    const std::vector<LotWeight> weights = lot_weights(cells, V);
    const LotCentre centre = lot_centre(cells, weights);
    Scoring scoring{VectorXd::Zero(count), MatrixXd::Zero(count, count)};
    double boards = 0;
    for (std::size_t p = 0; p < sums.size(); ++p) {
        const MatrixXd& M = weights[p].matrix;
        const double n = sums[p].boards;
        const VectorXd& mean = centre.mean;
        const MatrixXd cross = sums[p].sum * mean.transpose();
        const MatrixXd outer =
            sums[p].outer - cross - cross.transpose() + n * mean * mean.transpose();
        boards += n;
        for (Index g = 0; g < count; ++g) {
            const MatrixXd MV = M * parts[static_cast<std::size_t>(g)];
            const MatrixXd MVM = MV * M;
            scoring.slope(g) += 0.5 * (MVM.cwiseProduct(outer).sum() - n * MV.trace() +
                                       n * MVM.cwiseProduct(centre.covariance).sum());
            for (Index h = 0; h < count; ++h) {
                scoring.information(g, h) +=
                    0.5 * n * MVM.cwiseProduct(parts[static_cast<std::size_t>(h)]).sum();
            }
        }
    }
    scoring.information *= (boards - 1) / boards;
    return scoring;
}

} // namespace

std::vector<JointFactor> joint_factors(const LotModel& model, const LotCells& cells,
                                       const std::vector<std::size_t>& groups) {
    constexpr int most_rounds = 100;
    constexpr double settled = 1e-6;
    const std::vector<PatternSums> sums = pattern_sums(cells);
    MatrixXd rest = board_covariance(model);
    std::vector<MatrixXd> parts;
    for (const std::size_t group : groups) {
        parts.push_back(group_covariance(model, group));
        rest -= parts.back();
    }
    VectorXd rho = VectorXd::Ones(static_cast<Index>(groups.size()));
    Scoring scoring;
    for (int round = 0; round < most_rounds; ++round) {
        MatrixXd V = rest;
        for (std::size_t g = 0; g < parts.size(); ++g) {
            V += rho(static_cast<Index>(g)) * parts[g];
        }
        scoring = scoring_at(cells, sums, parts, V);
        const VectorXd step = solve_symmetric(scoring.information, scoring.slope);
        const VectorXd next = (rho + step).cwiseMax(0);
        const double moved = (next - rho).cwiseAbs().maxCoeff();
        rho = next;
        if (moved < settled) {
            break;
        }
    }
    const MatrixXd covariance = inverse_of_symmetric(scoring.information);
    std::vector<JointFactor> all;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        const auto at = static_cast<Index>(g);
        all.push_back({groups[g], rho(at), std::sqrt(std::max(0.0, covariance(at, at)))});
    }
    return all;
}

} // namespace vrid
