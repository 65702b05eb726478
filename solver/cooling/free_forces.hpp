#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "solver/laminate/layup.hpp"
#include "solver/system/model.hpp"

namespace vrid {

using Resultants = Eigen::Matrix<double, 6, Eigen::Dynamic>; ///< N M (x, y, xy each) by point

/// What holds the free strain f of one layer back at every integration point: int Qbar f (1, z) dz.
struct PartForces {
    std::string layer;  ///< a layer with its mirrored copy, "edge" with its flange, "sidewall", ...
    Resultants at_zero; ///< of the free strain at 0 degrees Celsius
    Resultants per_kelvin; ///< and what a kelvin adds
    Resultants of_common;  ///< of a free strain (1, 1, 0)
};

struct FreeForces {
    std::vector<PartForces> parts; ///< upwards, as far as they lie anywhere on each other
    /// The common shrink: mean over the board of what each place would shrink by if it stayed flat,
    /// in all directions; at 0 degrees Celsius and what a kelvin adds.
    double common_at_zero = 0, common_per_kelvin = 0;

    /// NF MF of the whole laminate at a temperature.
    [[nodiscard]] Resultants at(double celsius) const;
    [[nodiscard]] double common(double celsius) const {
        return common_at_zero + common_per_kelvin * celsius;
    }
};

/// \param layup of the pace that the model's sections have
FreeForces free_forces(const PlateModel& model, const Layup<double>& layup);

/// Nodal forces of resultants at every point: int (e . N + k . M) dA for every unknown.
Eigen::VectorXd nodal_forces(const PlateModel& model, const Resultants& resultants);

} // namespace vrid
