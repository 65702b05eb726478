#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "solver/cooling/free_board.hpp"
#include "solver/cooling/free_forces.hpp"

namespace vrid {

/// What each part of the laminate does to some numbers: the work of what holds its free strain back
/// with the motion under a unit of each number's load.
struct PartWorks {
    std::vector<std::string> names; ///< a layer with its mirrored copy, "edge", "sidewall", ...
    Eigen::MatrixXd at_zero;        ///< parts x numbers: of the free strain at 0 degrees Celsius
    Eigen::MatrixXd per_kelvin;     ///< and what a kelvin adds
    Eigen::MatrixXd of_common;      ///< of a free strain (1, 1, 0)
    /// The common shrink: mean over the board of what each place would shrink by if it stayed flat,
    /// in all directions; at 0 degrees Celsius and what a kelvin adds.
    double common_at_zero = 0, common_per_kelvin = 0;
    [[nodiscard]] double common(double celsius) const {
        return common_at_zero + common_per_kelvin * celsius;
    }
};

/// Adds them up quad by quad, while a board is solved.
class PartSum {
  public:
    /// \param sections whose stacks the forces name \param numbers how many
    PartSum(const PlateModel& model, const Layup<double>& layup, const SectionCache& sections,
            const FreeForces& forces, Eigen::Index numbers);
    /// A quad with the strains of the motions under the numbers' loads. For LookAtQuad.
    /// \param first of the strains, as many as numbers
    void add(int quad, const ElementTables& tables, const MotionStrains& strains,
             std::size_t first);
    [[nodiscard]] PartWorks works() const; ///< of all quads, once each has been added

  private:
    // A ply of a stack, upwards one after the other.
    struct FreePly {
        Eigen::Index part = 0;
        Eigen::Matrix3d
            stress;           // Qbar times the free strain at 0 deg C, that of a kelvin, (1, 1, 0)
        double thickness = 0; // [m]; of the core what comes on top of the profile's
        bool core = false;
    };
    struct OfQuad {
        Eigen::MatrixXd works; // 3 parts x numbers: zero, kelvin, common of each part
        double zero = 0, kelvin = 0, area = 0; // integrals of the shrink held flat
    };
    [[nodiscard]] std::vector<FreePly> free_plies(const StackKey& key) const;

    const PlateModel& model_;
    const Layup<double>& layup_;
    const FreeForces& forces_;
    Eigen::Index numbers_;
    std::vector<std::string> names_;
    std::vector<std::vector<FreePly>> plies_; // by stack
    Eigen::MatrixXd to_points_;
    std::vector<OfQuad> quads_;
};

} // namespace vrid
