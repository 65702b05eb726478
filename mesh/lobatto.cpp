#include "mesh/lobatto.hpp"

#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

namespace vrid {

namespace {

constexpr int highest = 8;

std::vector<double> computed_shares(int g) {
    std::vector<double> shares;
    for (const double x : lobatto(g + 1).point) {
        shares.push_back((1 + x) / 2);
    }
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

// By the three-term recurrence.
Legendre legendre(int n, double x) {
    double before = 1;
    double now = x;
    for (int k = 2; k <= n; ++k) {
        const double next = ((2 * k - 1) * x * now - (k - 1) * before) / k;
        before = now;
        now = next;
    }
    return {now, n * (x * now - before) / (x * x - 1)};
}

Rule lobatto(int n) {
    assert(n >= 2);
    Rule rule{Eigen::VectorXd(n), Eigen::VectorXd(n)};
    const int m = n - 1; // inner points are the roots of P_m'
    for (int i = 0; i < n; ++i) {
        double x = -std::cos(std::numbers::pi * i / m);
        if (i > 0 && i < m) {
            for (int step = 0; step < 20; ++step) {
                // P_m'' from Legendre's equation
                const Legendre p = legendre(m, x);
                const double curve = (2 * x * p.slope - m * (m + 1) * p.value) / (1 - x * x);
                x -= p.slope / curve;
            }
        }
        const double value = i == 0 || i == m ? 1.0 : legendre(m, x).value;
        rule.point(i) = x;
        rule.weight(i) = 2 / (m * n * value * value);
    }
    return rule;
}

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
