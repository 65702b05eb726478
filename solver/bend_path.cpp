#include "solver/bend_path.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

#include "mesh/board/error.hpp"
#include "solver/bent_limits.hpp"

namespace vrid {

namespace {

constexpr double largest_step = 0.03; // [m]: 5 to 7 iterations a step

} // namespace

Factor tangent_factor(const EliminationTree& tree, const BentState& state,
                      const std::vector<char>& fixed, const Settings& settings) {
    FactorOptions options;
    options.means = {settings.thread_count(), settings.memory.get()};
    return factorise(
        tree, [&](int quad, MatrixXd& K) { K = state.K[static_cast<std::size_t>(quad)]; }, fixed,
        options);
}

BendPath::BendPath(const LargeMotionModel& bent, const EliminationTree& tree, Loading loading,
                   double sign, const Settings& settings)
    : bent_(bent), tree_(tree), loading_(std::move(loading)), sign_(sign), settings_(settings),
      u_(VectorXd::Zero(bent.model.unknowns())) {}

void BendPath::try_from(VectorXd motion, double force, double travel) {
    clear_fixed(loading_.fixed, motion);
    const double here = std::exchange(force_, sign_ * force);
    std::swap(u_, motion);
    if (converged(travel)) {
        travel_ = travel;
        return;
    }
    std::swap(u_, motion);
    force_ = here;
}

std::string BendPath::go_to(double travel, const std::string& what) {
    double step = largest_step;
    int halvings = 0;
    while (travel - travel_ > 1e-9 * travel) {
        settings_.tell("bend", 0.5);
        const double next = std::min(travel, travel_ + step);
        if (converged(next)) {
            travel_ = next;
            continue;
        }
        step = (next - travel_) / 2;
        if (++halvings > bent_halvings) {
            return end_of_way(what);
        }
    }
    return settled() ? "" : end_of_way(what);
}

// Newton's method to a travel; moves on only if it gets there.
bool BendPath::converged(double travel) {
    const VectorXd& m = loading_.force;
    VectorXd u = u_;
    double force = force_;
    buckled_ = false;
    for (int iteration = 0; iteration < bent_iterations; ++iteration) {
        const BentState state = bent_state(bent_, u, settings_.thread_count());
        if (!(state.least_c > bent_least_cosine)) {
            return false;
        }
        MatrixXd right(u.size(), 2);
        VectorXd lack = force * m - state.force;
        clear_fixed(loading_.fixed, lack);
        right << lack, m;
        MatrixXd x;
        try {
            x = solve(tangent_factor(tree_, state, loading_.fixed, settings_), right,
                      settings_.thread_count());
        } catch (const SolveError&) {
            buckled_ = true;
            return false;
        }
        const double along = m.dot(x.col(1));
        const double gap = sign_ * travel - m.dot(u);
        const double more = (gap - m.dot(x.col(0))) / along;
        const VectorXd du = x.col(0) + more * x.col(1);
        const double owed = std::abs(lack.dot(du));
        u += du;
        force += more;
        if (std::abs(gap) < 1e-9 * travel && owed < bent_energy_wanted * std::abs(force * travel)) {
            u_ = std::move(u);
            force_ = force;
            return true;
        }
    }
    return false;
}

// The tangent where the board is now: Newton's last step left it a step behind.
bool BendPath::settled() {
    BentState state = bent_state(bent_, u_, settings_.thread_count());
    try {
        factor_ =
            std::make_shared<const Factor>(tangent_factor(tree_, state, loading_.fixed, settings_));
    } catch (const SolveError&) {
        buckled_ = true;
        return false;
    }
    state_ = std::move(state);
    x_ = answer(loading_.force);
    tangent_ = 1 / loading_.force.dot(x_);
    return true;
}

VectorXd BendPath::answer(VectorXd load) const {
    clear_fixed(loading_.fixed, load);
    return solve(*factor_, load, settings_.thread_count()).col(0);
}

std::string BendPath::end_of_way(const std::string& what) const {
    constexpr double mm = 1e3;
    std::ostringstream text;
    text.precision(3);
    text << what << (buckled_ ? ": the board buckles" : ": no equilibrium is found")
         << " beyond a travel of " << travel_ * mm << " mm";
    return text.str();
}

} // namespace vrid
