#pragma once

#include <memory>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "solver/settings.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/large_motion.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

/// A board on its way from rest to larger and larger travels under one pattern of load, the
/// travel prescribed, by Newton's method.
class BendPath {
  public:
    /// \param loading supports, and the pattern m of load whose work m.u is the travel
    /// \param sign of the travel in m.u
    BendPath(const LargeMotionModel& bent, const EliminationTree& tree, Loading loading,
             double sign, const Settings& settings);

    /// Stands at a travel if Newton's method finds equilibrium there from a motion and a force that
    /// another degree found; else nothing changes.
    void try_from(Eigen::VectorXd motion, double force, double travel);

    /// \param what the case, for the answer
    /// \returns why it is not there, with the travel reached; empty: it is
    [[nodiscard]] std::string go_to(double travel, const std::string& what);

    [[nodiscard]] const Eigen::VectorXd& motion() const { return u_; }
    [[nodiscard]] const Loading& loading() const { return loading_; }
    [[nodiscard]] double sign() const { return sign_; }
    [[nodiscard]] double travel() const { return travel_; }
    [[nodiscard]] double force() const { return sign_ * force_; }   ///< [N]
    [[nodiscard]] double tangent() const { return tangent_; }       ///< of force by travel [N/m]
    [[nodiscard]] const BentState& state() const { return state_; } ///< at motion()
    [[nodiscard]] const Eigen::VectorXd& by_unit_load() const { return x_; } ///< K^-1 m there
    /// K^-1 times a load under the supports of bending, at the travel reached.
    [[nodiscard]] Eigen::VectorXd answer(Eigen::VectorXd load) const;

  private:
    bool converged(double travel);
    bool settled();
    [[nodiscard]] std::string end_of_way(const std::string& what) const;

    const LargeMotionModel& bent_;
    const EliminationTree& tree_;
    Loading loading_;
    double sign_;
    const Settings& settings_;
    Eigen::VectorXd u_, x_;
    double force_ = 0, travel_ = 0, tangent_ = 0;
    bool buckled_ = false;
    BentState state_;
    std::shared_ptr<const Factor> factor_;
};

/// The factor of a bent state's tangent stiffness under supports. \throws SolveError if a pivot is
/// not positive
Factor tangent_factor(const EliminationTree& tree, const BentState& state,
                      const std::vector<char>& fixed, const Settings& settings);

} // namespace vrid
