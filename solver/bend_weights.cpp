#include "solver/bend_weights.hpp"

#include <array>

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

// Second derivative at 0 of a function of one step, by values at -2 .. 2 steps: error of fourth
// order. Strains are polynomials of second degree in the motion but for the director's cosine, so
// that little of it is left at any step.
constexpr std::array stencil{-1.0 / 12, 4.0 / 3, -5.0 / 2, 4.0 / 3, -1.0 / 12};

template <class Add> void second_difference(double step, const Add& add) {
    for (int i = -2; i <= 2; ++i) {
        add(i * step, stencil[static_cast<std::size_t>(i + 2)] / (step * step));
    }
}

StrainFields second_strains(const LargeMotionModel& bent, const VectorXd& u, const VectorXd& psi,
                            double step, int threads) {
    StrainFields all;
    second_difference(step, [&](double at, double factor) {
        const StrainFields one = bent_strains(bent, u + at * psi, threads);
        if (all.empty()) {
            for (const auto& quad : one) {
                all.push_back(factor * quad);
            }
            return;
        }
        for (std::size_t i = 0; i < all.size(); ++i) {
            all[i] += factor * one[i];
        }
    });
    return all;
}

VectorXd second_forces(const LargeMotionModel& bent, const VectorXd& u, const VectorXd& psi,
                       double step, int threads) {
    VectorXd all = VectorXd::Zero(u.size());
    second_difference(step, [&](double at, double factor) {
        all += factor * bent_forces(bent, u + at * psi, threads);
    });
    return all;
}

} // namespace

void add_strain_work(const LargeMotionModel& bent, const StrainFields& left,
                     const StrainFields& right, double factor, NumberWeights& weights) {
    const Index m = bent.model.reference.m;
    if (weights.size() == 0) {
        weights = VectorXd::Zero(section_terms * m * static_cast<Index>(left.size()));
    }
    for (std::size_t quad = 0; quad < left.size(); ++quad) {
        for (Index c = 0; c < m; ++c) {
            const Index row = section_terms * (static_cast<Index>(quad) * m + c);
            weights.segment<section_terms>(row) +=
                factor * bent.tables[quad].weight(c) *
                energy_weights(left[quad].col(c), right[quad].col(c));
        }
    }
}

BendWeights::BendWeights(const LargeMotionModel& bent, const BendPath& path, int threads)
    : bent_(bent), path_(path), threads_(threads), now_(bent_strains(bent, path.motion(), threads)),
      by_load_(strain_changes(bent, path.motion(), path.by_unit_load(), threads)) {}

NumberWeights BendWeights::force() const {
    NumberWeights weights;
    add(by_load_, now_, path_.sign() * path_.tangent(), weights);
    return weights;
}

NumberWeights BendWeights::motion(const VectorXd& g) const {
    const VectorXd y = path_.answer(g);
    NumberWeights weights;
    add(by_load_, now_, path_.tangent() * g.dot(path_.by_unit_load()), weights);
    add(strain_changes(bent_, path_.motion(), y, threads_), now_, -1, weights);
    return weights;
}

// psi.K psi with psi.K = 0 wherever psi is free: what dK and the change of the state add.
NumberWeights BendWeights::quadratic(const VectorXd& psi, double step, const VectorXd& owed) const {
    const VectorXd& u = path_.motion();
    NumberWeights weights = motion(second_forces(bent_, u, psi, step, threads_) + owed);
    const StrainFields first = strain_changes(bent_, u, psi, threads_);
    add(first, first, 1, weights);
    add(second_strains(bent_, u, psi, step, threads_), now_, 1, weights);
    return weights;
}

NumberWeights BendWeights::tangent() const {
    const double k = path_.tangent();
    constexpr double share = 0.02; // of the travel, as a step: at 0.1 the error is 2e-5
    const VectorXd none = VectorXd::Zero(path_.motion().size());
    return k * k * quadratic(path_.by_unit_load(), share * path_.travel() * k, none);
}

NumberWeights BendWeights::stiffness(const VectorXd& psi, const VectorXd& owed) const {
    constexpr double step = 0.01; // [rad]
    return quadratic(psi, step, owed);
}

} // namespace vrid
