#include "solver/strength_bar.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "solver/response/error_bar.hpp"

namespace vrid {

double degree_change(WeakestSearch& search, const std::array<SeenMotion, 2>& by_degree,
                     const Weakness& fine, const Weakness* coarse) {
    if (coarse == nullptr || fine.factor == 0) {
        return coarse == nullptr ? no_bar : 0;
    }
    const Way way{fine.layer, fine.mode};
    double most = std::abs(coarse->factor / fine.factor - 1);
    for (const Eigen::Vector2d& at : {fine.at, coarse->at}) {
        std::array<std::optional<Weakness>, 2> seen;
        for (std::size_t degree = 0; degree < 2; ++degree) {
            search.residual = by_degree[degree].residual;
            seen[degree] = search.at(by_degree[degree].motion, at, fine.stack, way);
        }
        if (seen[0] && seen[1]) {
            most = std::max(most, std::abs(seen[0]->factor - seen[1]->factor) / fine.factor);
        }
    }
    return most;
}

// Factor and floor were fitted to the boards of seeds 0 to 3 of benchmarks/strength_bars.cpp and
// held against others; the floor is for places that a walk in steps of a quarter of a millimetre
// finds.
double strength_bar(int p, double change) {
    constexpr double factor = 1.5, floor = 1e-3;
    return factor * error_bar(p, 1, 1 + change) + floor;
}

double least_bar(int p, const Weakness& least, double share,
                 const std::array<const std::map<Way, Weakness>*, 2>& ways, bool breaking) {
    for (const auto& [way, fine] : *ways[1]) {
        const auto coarse = ways[0]->find(way);
        if (coarse != ways[0]->end() && (fine.breaking || !breaking) && fine.factor > 0) {
            // of the stress, one over the factor: a way that the lower degree hardly sees is not
            // therefore many times as near
            const double change = std::abs(1 - fine.factor / coarse->second.factor);
            const double lowest = fine.factor / (1 + strength_bar(p, change));
            share = std::max(share, 1 - lowest / least.factor);
        }
    }
    return share;
}

double steepest(const Eigen::VectorXd& motion) {
    double most = 0;
    for (Eigen::Index k = comp_bx; k + 1 < motion.size(); k += unknowns_per_node) {
        most = std::max(most, std::hypot(motion(k), motion(k + 1)));
    }
    return most;
}

} // namespace vrid
