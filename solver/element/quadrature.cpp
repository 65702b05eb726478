#include "solver/element/quadrature.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

namespace vrid {

namespace {

// Legendre polynomial P_n and its derivative at x, by the three-term recurrence.
struct Legendre {
    double value, slope;
};

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

} // namespace

Rule gauss(int n) {
    assert(n >= 1);
    Rule rule{Eigen::VectorXd::Zero(n), Eigen::VectorXd::Constant(n, 2.0)};
    if (n == 1) {
        return rule;
    }
    for (int i = 0; i < n; ++i) {
        double x = -std::cos(std::numbers::pi * (i + 0.75) / (n + 0.5));
        for (int step = 0; step < 10; ++step) {
            const Legendre p = legendre(n, x);
            x -= p.value / p.slope;
        }
        const double slope = legendre(n, x).slope;
        rule.point(i) = x;
        rule.weight(i) = 2 / ((1 - x * x) * slope * slope);
    }
    return rule;
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

Eigen::MatrixXd lagrange(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points) {
    Eigen::MatrixXd table(points.size(), nodes.size());
    for (Eigen::Index p = 0; p < points.size(); ++p) {
        for (Eigen::Index i = 0; i < nodes.size(); ++i) {
            double product = 1;
            for (Eigen::Index j = 0; j < nodes.size(); ++j) {
                if (j != i) {
                    product *= (points(p) - nodes(j)) / (nodes(i) - nodes(j));
                }
            }
            table(p, i) = product;
        }
    }
    return table;
}

Eigen::MatrixXd lagrange_slope(const Eigen::VectorXd& nodes, const Eigen::VectorXd& points) {
    Eigen::MatrixXd table(points.size(), nodes.size());
    for (Eigen::Index p = 0; p < points.size(); ++p) {
        for (Eigen::Index i = 0; i < nodes.size(); ++i) {
            double sum = 0;
            for (Eigen::Index k = 0; k < nodes.size(); ++k) {
                if (k == i) {
                    continue;
                }
                double product = 1 / (nodes(i) - nodes(k));
                for (Eigen::Index j = 0; j < nodes.size(); ++j) {
                    if (j != i && j != k) {
                        product *= (points(p) - nodes(j)) / (nodes(i) - nodes(j));
                    }
                }
                sum += product;
            }
            table(p, i) = sum;
        }
    }
    return table;
}

} // namespace vrid
