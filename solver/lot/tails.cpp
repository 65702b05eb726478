#include "solver/lot/tails.hpp"

#include <algorithm>
#include <numeric>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>

namespace vrid {

double chi2_tail(double x, double degrees) {
    return x <= 0 ? 1 : cdf(complement(boost::math::chi_squared(degrees), x));
}

double chi2_quantile(double p, double degrees) {
    return quantile(boost::math::chi_squared(degrees), p);
}

double normal_quantile(double p) {
    return quantile(boost::math::normal(), p);
}

std::vector<double> holm(const std::vector<double>& p) {
    std::vector<std::size_t> order(p.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return p[a] < p[b]; });
    std::vector<double> together(p.size());
    double highest = 0;
    for (std::size_t rank = 0; rank < order.size(); ++rank) {
        const auto left = static_cast<double>(order.size() - rank);
        highest = std::max(highest, std::min(1.0, left * p[order[rank]]));
        together[order[rank]] = highest;
    }
    return together;
}

} // namespace vrid
