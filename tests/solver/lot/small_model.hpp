#pragma once

#include <random>

#include "solver/lot/lot_model.hpp"

namespace vrid {

/// A made-up model of `numbers` readings and twelve values in six groups, always the same.
inline LotModel small_model(Eigen::Index numbers) {
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> uniform(0.5, 1.5);
    constexpr Eigen::Index values = 12;
    LotModel model;
    model.mean = Eigen::VectorXd::Constant(numbers, 50);
    model.slopes = Eigen::MatrixXd::NullaryExpr(numbers, values, [&] { return normal(random); });
    model.value_sd = Eigen::VectorXd::NullaryExpr(values, [&] { return uniform(random); });
    model.rig_sd = Eigen::VectorXd::Constant(numbers, 0.8);
    model.bias_sd = Eigen::VectorXd::Zero(numbers);
    for (Eigen::Index j = 0; j < values; ++j) {
        model.group.push_back(static_cast<std::size_t>(j / 2));
        model.free.push_back(j);
    }
    model.groups = 6;
    return model;
}

} // namespace vrid
