#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/laminate/layup.hpp"
#include "solver/system/model.hpp"

namespace vrid {

using Resultants = Eigen::Matrix<double, 6, Eigen::Dynamic>; ///< N M (x, y, xy each) by point

/// What holds the free strain f of the laminate back at every integration point: int Qbar f (1, z)
/// dz.
struct FreeForces {
    Resultants at_zero;     ///< of the free strain at 0 degrees Celsius
    Resultants per_kelvin;  ///< and what a kelvin adds
    std::vector<int> stack; ///< at every point, of the sections' stacks

    [[nodiscard]] Resultants at(double celsius) const { return at_zero + celsius * per_kelvin; }
};

/// \param sections of the pace that counts
/// \param stiffness gets that of these sections, as PlateModel::stiffness; null: the model has it
FreeForces free_forces(const PlateModel& model, SectionCache& sections,
                       std::vector<PlateStiffness>* stiffness = nullptr);

/// Nodal forces of resultants at every point, int (e . N + k . M) dA for every unknown; a column
/// each.
Eigen::MatrixXd nodal_forces(const PlateModel& model, const std::vector<Resultants>& resultants,
                             int threads);

} // namespace vrid
