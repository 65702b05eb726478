#include "solver/design/open_directions.hpp"

#include <cmath>

#include <Eigen/QR>

#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

constexpr double told = 0.95;  // of a deviation
constexpr double small = 0.25; // part of a direction that goes without saying

// The least change of the readings that is left when the values of `follow` go along as they want.
MatrixXd left_over(const MatrixXd& J, const MatrixXd& follow) {
    if (follow.cols() == 0) {
        return J;
    }
    return J - follow * follow.completeOrthogonalDecomposition().solve(J);
}

} // namespace

std::vector<OpenDirection> open_directions(const MatrixXd& J, const VectorXd& prior,
                                           const std::vector<bool>& held) {
    std::vector<Index> kept;
    std::vector<Index> following;
    for (Index i = 0; i < J.cols(); ++i) {
        if (!held[static_cast<std::size_t>(i)]) {
            (prior(i) > 0 ? kept : following).push_back(i);
        }
    }
    std::vector<OpenDirection> open;
    if (kept.size() < 2) {
        return open;
    }
    const MatrixXd own = left_over(J(Eigen::all, kept), J(Eigen::all, following));
    const SymmetricEigen eigen = symmetric_eigen(own.transpose() * own);
    for (Index k = 0; k < own.cols(); ++k) {
        const VectorXd part = eigen.vectors.col(k);
        const double sd_left = 1 / std::sqrt(1 + std::max(0.0, eigen.values(k)));
        if (sd_left < told || (part.cwiseAbs().array() > small).count() < 2) {
            continue; // what is one value's is said of that
        }
        OpenDirection one{VectorXd::Zero(J.cols()), sd_left, (own * part).cwiseAbs().maxCoeff()};
        for (std::size_t i = 0; i < kept.size(); ++i) {
            const double here = part(static_cast<Index>(i));
            one.step(kept[i]) = std::abs(here) > small ? here : 0;
        }
        Index first = 0;
        one.step.cwiseAbs().maxCoeff(&first);
        one.step *= one.step(first) < 0 ? -1 : 1;
        open.push_back(one);
    }
    return open;
}

} // namespace vrid
