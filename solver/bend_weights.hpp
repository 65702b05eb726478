#pragma once

#include <Eigen/Core>

#include "solver/bend_path.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

// Derivatives of a bent board's numbers by its section. In equilibrium R(u, p) = F m at a travel
// m.u = T; K = dR/du under the supports of bending, K x = m, k = 1 / (m.x):
//   dF = k x.R_p,  du = dF x - K^-1 R_p;  a number g(u) changes by g.du = dF g.x - (K^-1 g).R_p.
// R_p and K_p hold the section's change between strains of the states and motions stored here.

/// Weights of one number, 30 places x 1, in the order of model_places.
using NumberWeights = Eigen::VectorXd;

/// Adds factor * left^T d(section) right of two strain fields; weights of size 0 become zeros.
void add_strain_work(const LargeMotionModel& bent, const StrainFields& left,
                     const StrainFields& right, double factor, NumberWeights& weights);

class BendWeights {
  public:
    BendWeights(const LargeMotionModel& bent, const BendPath& path, int threads);

    /// Of the force that holds the travel.
    [[nodiscard]] NumberWeights force() const;
    /// Of a number linear in the motion: g its derivative by every unknown.
    [[nodiscard]] NumberWeights motion(const Eigen::VectorXd& g) const;
    /// Of the tangent dF/dT.
    [[nodiscard]] NumberWeights tangent() const;
    /// Of psi.K psi, psi at rest but for what is prescribed. \param owed derivative of that
    /// prescribed motion times the forces there, by every unknown
    [[nodiscard]] NumberWeights stiffness(const Eigen::VectorXd& psi,
                                          const Eigen::VectorXd& owed) const;

  private:
    void add(const StrainFields& left, const StrainFields& right, double factor,
             NumberWeights& weights) const {
        add_strain_work(bent_, left, right, factor, weights);
    }

    const LargeMotionModel& bent_;
    const BendPath& path_;
    int threads_;
    StrainFields now_, by_load_; ///< strains, and their change by x
};

} // namespace vrid
