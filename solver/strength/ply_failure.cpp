#include "solver/strength/ply_failure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace vrid {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

// Strengths for the signs that stresses have.
struct Signed {
    double X, Y, S;
};

Signed strengths_at(const PlyStrength& s, const PlyStress& stress) {
    if (s.isotropic) {
        const double X = stress(0) + stress(1) >= 0 ? s.Xt : s.Xc;
        return {X, X, X / std::sqrt(3.0)};
    }
    return {stress(0) >= 0 ? s.Xt : s.Xc, stress(1) >= 0 ? s.Yt : s.Yc, s.S12};
}

// Each stress over its strength.
Eigen::Vector3d parts(const PlyStrength& strength, const PlyStress& stress) {
    const Signed s = strengths_at(strength, stress);
    return {stress(0) / s.X, stress(1) / s.Y, stress(2) / s.S};
}

// The bilinear form of Tsai and Hill.
double hill(const Signed& s, const PlyStress& a, const PlyStress& b) {
    return a(0) * b(0) / (s.X * s.X) - (a(0) * b(1) + a(1) * b(0)) / (2 * s.X * s.X) +
           a(1) * b(1) / (s.Y * s.Y) + a(2) * b(2) / (s.S * s.S);
}

// Least L in [from, to] with a L^2 + 2 b L + c = 1, given that the left end is below 1.
double least_root(double a, double b, double c, double from, double to) {
    const double rest = c - 1;
    double found = never;
    if (a == 0) {
        found = b > 0 ? -rest / (2 * b) : never;
    } else {
        const double disc = b * b - a * rest;
        if (disc < 0) {
            return never;
        }
        // a > 0: below 1 between the roots, so the larger one; written without cancellation
        const double root = std::sqrt(disc);
        found = b > 0 ? -rest / (b + root) : (root - b) / a;
    }
    const double slack = 1e-12 * std::max(std::abs(from), 1e-300);
    return found >= from - slack && found <= to * (1 + 1e-12) ? std::max(found, from) : never;
}

double hill_factor(const PlyStrength& strength, const PlyStress& residual, const PlyStress& load) {
    std::array<double, 3> ends{never, never, never}; // where a sign changes, last: no more
    const auto change = [](double at_zero, double slope) {
        const double where = slope != 0 ? -at_zero / slope : -1;
        return where > 0 ? where : never;
    };
    if (strength.isotropic) {
        ends[0] = change(residual(0) + residual(1), load(0) + load(1));
    } else {
        ends[0] = change(residual(0), load(0));
        ends[1] = change(residual(1), load(1));
        std::ranges::sort(ends);
    }
    double from = 0;
    for (const double to : ends) {
        if (!(to > from)) {
            continue;
        }
        const double middle = std::isinf(to) ? from + std::max(1.0, 2 * from) : (from + to) / 2;
        const Signed s = strengths_at(strength, residual + middle * load);
        const double a = hill(s, load, load);
        const double b = hill(s, load, residual);
        const double c = hill(s, residual, residual);
        if (a * from * from + 2 * b * from + c >= 1) {
            return from; // the index jumps where X of an isotropic material does
        }
        const double found = least_root(a, b, c, from, to);
        if (found < never) {
            return found;
        }
        from = to;
    }
    return never;
}

double stress_factor(const PlyStrength& s, const PlyStress& residual, const PlyStress& load) {
    const std::array<double, 3> plus{s.Xt, s.Yt, s.S12};
    const std::array<double, 3> minus{s.Xc, s.Yc, s.S12};
    double least = never;
    for (int i = 0; i < 3; ++i) {
        const auto k = static_cast<std::size_t>(i);
        if (load(i) > 0) {
            least = std::min(least, (plus[k] - residual(i)) / load(i));
        } else if (load(i) < 0) {
            least = std::min(least, (minus[k] + residual(i)) / -load(i));
        }
    }
    return std::max(least, 0.0);
}

} // namespace

double failure_index(const PlyStrength& strength, Criterion criterion, const PlyStress& stress) {
    const Signed s = strengths_at(strength, stress);
    if (criterion == Criterion::tsai_hill) {
        return hill(s, stress, stress);
    }
    if (strength.isotropic) { // no direction of its own: von Mises here too
        return std::sqrt(hill(s, stress, stress));
    }
    return std::max(
        {std::abs(stress(0)) / s.X, std::abs(stress(1)) / s.Y, std::abs(stress(2)) / s.S});
}

double failure_factor(const PlyStrength& strength, Criterion criterion, const PlyStress& residual,
                      const PlyStress& load) {
    if (failure_index(strength, criterion, residual) >= 1) {
        return 0;
    }
    if (criterion == Criterion::tsai_hill || strength.isotropic) {
        return hill_factor(strength, residual, load);
    }
    return stress_factor(strength, residual, load);
}

int largest_part(const PlyStrength& strength, const PlyStress& stress) {
    int largest = 0;
    parts(strength, stress).cwiseAbs().maxCoeff(&largest);
    return largest;
}

double along_part(const PlyStrength& strength, const PlyStress& stress) {
    const Eigen::Vector3d all = parts(strength, stress);
    return all(0) / all.cwiseAbs().maxCoeff();
}

double shear_index(const PlyStrength& strength, const Eigen::Vector2d& shear) {
    const auto part = [](double stress, const std::optional<double>& bears) {
        return bears ? stress * stress / (*bears * *bears) : 0;
    };
    return part(shear(0), strength.S13) + part(shear(1), strength.S23);
}

} // namespace vrid
