#pragma once

#include <Eigen/Core>

#include "solver/system/model.hpp"

namespace vrid {

/// A place of the board in the mesh.
struct MeshPlace {
    int quad = 0;
    Eigen::Vector2d natural{0, 0}; ///< xi, eta
    Eigen::VectorXd shape;         ///< the quad's shape functions there
};

/// Finds places in one mesh.
class MeshPlaces {
  public:
    explicit MeshPlaces(const PlateModel& model);
    /// Where a point of the planform lies; of one beside the mesh the nearest place.
    [[nodiscard]] MeshPlace at(const Eigen::Vector2d& point) const;
    [[nodiscard]] const PlateModel& model() const { return *model_; }

  private:
    const PlateModel* model_;
    Eigen::Matrix4Xd boxes_; // of each quad: lowest x, y, highest x, y [m]
};

/// Strains there of motions, a column each: e_x e_y e_xy k_x k_y k_xy g_yz g_xz.
Eigen::Matrix<double, 8, Eigen::Dynamic> strains_at(const PlateModel& model, const MeshPlace& place,
                                                    const Eigen::MatrixXd& motions);

/// Adds to a load what makes its work with a motion `factor` times the rise w there.
void add_rise(const PlateModel& model, const MeshPlace& place, double factor,
              Eigen::Ref<Eigen::VectorXd> load);

/// How far the board rises there [m].
double rise_at(const PlateModel& model, const MeshPlace& place,
               const Eigen::Ref<const Eigen::VectorXd>& u);

} // namespace vrid
