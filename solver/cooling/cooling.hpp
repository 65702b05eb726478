#pragma once

#include <memory>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/cooling/shape_numbers.hpp"
#include "solver/response/cooled_shape.hpp"

namespace vrid {

/// A board on one model, to be cooled.
struct CoolingTask {
    const Board& board; ///< with a cure
    const PlateModel& model;
    const EliminationTree& tree;
    std::shared_ptr<const Factor> factor; ///< of the model on determinate supports; null: none yet
    SolveMeans means;
    std::vector<double> celsius;   ///< temperatures to cool to
    std::vector<double> concavity; ///< more stations
    bool shapes = false;           ///< also adjoints and CooledShape
};

struct Cooling {
    std::vector<ShapeNumber> numbers;
    Eigen::MatrixXd values;  ///< numbers x temperatures, SI
    Eigen::MatrixXd motion;  ///< unknowns x temperatures; see CaseResult::motion
    Eigen::MatrixXd adjoint; ///< unknowns x numbers: motion under a unit of each number's load
    std::vector<CooledShape> shapes; ///< by temperature
    double residual = 0;             ///< the largest
};

/// The free board after cooling, linear and shallow, without gravity: K u = int e . NF + k . MF, on
/// supports that take no force. Materials that creep have a model of their own with the stiffness
/// that they show after hours (Material::slow). \throws SolveError when a support takes force
Cooling cool(const CoolingTask& task, Seconds& seconds);

/// Where bending in two directions stretches the cooled board: share by which linear theory
/// overstates a curvature, E h b^4 k^2 / (720 D*) with the other curvature k, that of the mould
/// counted; between the contact stations.
StretchShare stretch_share(const Board& board, const Layup<double>& layup, const PlateModel& model,
                           const Eigen::VectorXd& motion);

} // namespace vrid
