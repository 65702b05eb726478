#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "solver/cooling/cooling.hpp"
#include "solver/response/quantity.hpp"
#include "solver/system/eigenvalues.hpp"

namespace vrid {

/// What a case gave at one degree.
struct Answer {
    std::vector<NamedQuantity> numbers; ///< without error bars
    Eigen::VectorXd motion;
    Eigen::MatrixXd shapes; ///< of modes
    Eigen::MatrixXd near;   ///< of modes: a start for the higher degree
    double residual = 0;
    std::shared_ptr<const CooledShape> cooled{};
};

/// Frequencies of the free board; the first shape with 1 m where w is largest.
Answer modes_answer(const PlateModel& model, int count, const ModeOptions& options);

/// Of the cases that cool the board, in the order of their temperatures.
std::vector<Answer> cooled_answers(Cooling cooling);

} // namespace vrid
