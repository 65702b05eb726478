#include "solver/strength_bar.hpp"

#include <algorithm>
#include <cmath>

#include "solver/response/error_bar.hpp"

namespace vrid {

double degree_change(WeakestSearch& search, const std::array<SeenMotion, 2>& by_degree,
                     const Weakness& fine, const Weakness* coarse, bool breaking) {
    if (coarse == nullptr || fine.factor == 0) {
        return coarse == nullptr ? no_bar : 0;
    }
    double most = std::abs(coarse->factor / fine.factor - 1);
    const auto see = [&](const SeenMotion& other, const Weakness& place) {
        search.residual = other.residual;
        if (const auto factor = search.again(other.motion, place, breaking)) {
            most = std::max(most, std::abs(*factor - place.factor) / fine.factor);
        }
    };
    see(by_degree[0], fine);
    see(by_degree[1], *coarse);
    return most;
}

// Factor and floor were fitted to the boards of seeds 0 to 3 of benchmarks/strength_bars.cpp and
// held against others; the floor is for places that a walk in steps of a quarter of a millimetre
// finds.
double strength_bar(int p, double change) {
    constexpr double factor = 1.5, floor = 1e-3;
    return factor * error_bar(p, 1, 1 + change) + floor;
}

double least_bar(int p, double least, double share, const std::vector<Rival>& rivals) {
    for (const Rival& one : rivals) {
        if (one.fine > 0) {
            // of the stress, one over the factor: a way that the lower degree hardly sees is not
            // therefore many times as near
            const double change = std::abs(1 - one.fine / one.coarse);
            const double lowest = one.fine / (1 + strength_bar(p, change));
            share = std::max(share, 1 - lowest / least);
        }
    }
    return share;
}

std::vector<Rival> rivals(WeakestSearch& search, const std::array<SeenMotion, 2>& by_degree,
                          const std::array<const Weakest*, 2>& found, const Weakness& least,
                          std::map<Way, Weakness> Weakest::*where, bool breaking) {
    std::vector<Rival> all;
    const auto add = [&](const Weakness& one, std::size_t degree) {
        const bool asked = nearly_as_weak(one, least) &&
                           (breaking ? one.breaking : !one.almost()) &&
                           (where == &Weakest::anywhere || one.aside > one.diameter);
        if (!asked) {
            return;
        }
        const SeenMotion& other = by_degree[1 - degree];
        search.residual = other.residual;
        if (const auto factor = search.again(other.motion, one, breaking)) {
            all.push_back({degree == 1 ? one.factor : *factor, degree == 0 ? one.factor : *factor});
        }
    };
    for (const std::size_t degree : {0, 1}) {
        for (const auto& [way, one] : found[degree]->*where) {
            add(one, degree);
        }
    }
    for (const auto& [way, places] : found[1]->others) {
        for (const Weakness& one : places) {
            add(one, 1);
        }
    }
    search.residual = by_degree[1].residual;
    return all;
}

double steepest(const Eigen::VectorXd& motion) {
    double most = 0;
    for (Eigen::Index k = comp_bx; k + 1 < motion.size(); k += unknowns_per_node) {
        most = std::max(most, std::hypot(motion(k), motion(k + 1)));
    }
    return most;
}

} // namespace vrid
