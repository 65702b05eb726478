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
    SectionCache& sections;               ///< those that the model is made of
    std::shared_ptr<const Factor> factor; ///< of the model on determinate supports; null: none yet
    SolveMeans means;
    std::vector<double> celsius;   ///< temperatures to cool to
    std::vector<double> concavity; ///< more stations
    bool shapes = false;           ///< also CooledShape
    bool adjoints = false;         ///< also Cooling::adjoint
};

struct Cooling {
    std::vector<ShapeNumber> numbers;
    Eigen::MatrixXd values;  ///< numbers x temperatures, SI
    Eigen::MatrixXd motion;  ///< unknowns x temperatures; see CaseResult::motion
    Eigen::MatrixXd adjoint; ///< unknowns x numbers: motion under a unit of each number's load;
                             ///< empty where not asked for
    std::vector<CooledShape> shapes; ///< by temperature
    double residual = 0;             ///< the largest
};

/// The free board after cooling, linear and shallow, without gravity: K u = int e . NF + k . MF, on
/// supports that take no force. Materials that creep have a model of their own with the stiffness
/// that they show after hours (Material::slow). \throws SolveError when a support takes force
Cooling cool(const CoolingTask& task, Seconds& seconds);

} // namespace vrid
