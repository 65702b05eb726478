#pragma once

#include <array>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/planform.hpp"
#include "mesh/mesh.hpp"

namespace vrid {

/// Functions over the outline, one a vertex of a mesh along it: 1 there, linear in the length along
/// the outline to 0 at its neighbours. They sum to 1 everywhere.
class OutlineHats {
  public:
    OutlineHats(const Mesh& mesh, const Planform& planform);

    [[nodiscard]] double value(std::size_t hat, const OutlinePlace& place) const;

    struct Share {
        Eigen::Index hat = 0;
        double value = 0;
    };
    /// The two that are not 0 at a place.
    [[nodiscard]] std::array<Share, 2> at_place(const OutlinePlace& place) const;

    [[nodiscard]] const std::vector<int>& vertices() const { return vertices_; }
    [[nodiscard]] const Eigen::Matrix2Xd& at() const { return at_; }           ///< [m]
    [[nodiscard]] const Eigen::Matrix2Xd& outward() const { return outward_; } ///< unit normals
    [[nodiscard]] const Eigen::VectorXd& length() const { return length_; }    ///< integrals [m]

  private:
    [[nodiscard]] double arc(const OutlinePlace& place) const;
    /// Way along the outline from one place to another, in its direction [m].
    [[nodiscard]] double way(double from, double to) const;

    const Planform& planform_;
    std::vector<double> start_; ///< of each piece along the outline, and the whole length [m]
    std::vector<double> arc_;   ///< of each vertex
    std::vector<int> vertices_;
    Eigen::Matrix2Xd at_, outward_;
    Eigen::VectorXd length_;
};

} // namespace vrid
