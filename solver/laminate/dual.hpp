#pragma once

#include <unordered_map>

#include <Eigen/Core>
#include <unsupported/Eigen/AutoDiff>

namespace vrid {

/// Derivatives carried at once; more design values are taken in turns.
constexpr int dual_width = 8;
using DualSlopes = Eigen::Matrix<double, dual_width, 1>;

/// A number with its derivatives (forward mode).
using Dual = Eigen::AutoDiffScalar<DualSlopes>;

/// Reads the values of a board: as they are, or with the derivatives seeded at their places.
template <class T> struct BoardReading;

template <> struct BoardReading<double> {
    double operator()(const double& place) const { return place; }
};

template <> struct BoardReading<Dual> {
    /// Derivative of the value at a place of the board; all others are constant.
    std::unordered_map<const double*, DualSlopes> seeds;
    Dual operator()(const double& place) const {
        const auto found = seeds.find(&place);
        return found == seeds.end() ? Dual(place) : Dual(place, found->second);
    }
};

} // namespace vrid
