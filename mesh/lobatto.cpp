#include "mesh/lobatto.hpp"

#include <array>
#include <cassert>
#include <cmath>

namespace vrid {

namespace {

constexpr int highest = 8;

// Ends and the zeros of P_g' (Legendre), found by Newton on (1 - x^2) P_g'.
std::vector<double> computed_shares(int g) {
    std::vector<double> shares{0.0};
    for (int k = 1; k < g; ++k) {
        double x = -std::cos(std::acos(-1.0) * k / g);
        for (int step = 0; step < 50; ++step) {
            double before = 1;
            double p = x; // P_n and P_{n-1} by the three-term recurrence
            for (int n = 2; n <= g; ++n) {
                const double next = ((2 * n - 1) * x * p - (n - 1) * before) / n;
                before = p;
                p = next;
            }
            const double first = g * (before - x * p) / (1 - x * x);
            const double second = (2 * x * first - g * (g + 1) * p) / (1 - x * x);
            const double change = first / second;
            x -= change;
            if (std::abs(change) < 1e-16) {
                break;
            }
        }
        shares.push_back((1 + x) / 2);
    }
    shares.push_back(1.0);
    return shares;
}

// Barycentric differentiation.
Eigen::MatrixXd computed_derivative(const std::vector<double>& x) {
    const auto n = static_cast<Eigen::Index>(x.size());
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index k = 0; k < n; ++k) {
            if (k != i) {
                weight[i] /= x[static_cast<std::size_t>(i)] - x[static_cast<std::size_t>(k)];
            }
        }
    }
    Eigen::MatrixXd d = Eigen::MatrixXd::Zero(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index k = 0; k < n; ++k) {
            if (k != i) {
                d(i, k) = weight[k] / weight[i] /
                          (x[static_cast<std::size_t>(i)] - x[static_cast<std::size_t>(k)]);
                d(i, i) -= d(i, k);
            }
        }
    }
    return d;
}

} // namespace

const std::vector<double>& lobatto_shares(int degree) {
    assert(degree >= 1 && degree <= highest);
    static const std::array<std::vector<double>, highest> table = [] {
        std::array<std::vector<double>, highest> all;
        for (int g = 1; g <= highest; ++g) {
            all[static_cast<std::size_t>(g - 1)] = computed_shares(g);
        }
        return all;
    }();
    return table[static_cast<std::size_t>(degree - 1)];
}

const Eigen::MatrixXd& lobatto_derivative(int degree) {
    static const std::array<Eigen::MatrixXd, highest> table = [] {
        std::array<Eigen::MatrixXd, highest> all;
        for (int g = 1; g <= highest; ++g) {
            all[static_cast<std::size_t>(g - 1)] = computed_derivative(lobatto_shares(g));
        }
        return all;
    }();
    return table[static_cast<std::size_t>(degree - 1)];
}

} // namespace vrid
