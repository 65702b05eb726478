#pragma once

#include <optional>
#include <vector>

#include <Eigen/Core>

#include "mesh/mesh.hpp"
#include "solver/strength/cut_disc.hpp"

namespace vrid {

/// Where a mesh's quads lie, and which hold a point.
class QuadPlaces {
  public:
    explicit QuadPlaces(const Mesh& mesh);

    [[nodiscard]] int count() const { return static_cast<int>(shape_.size()); }
    [[nodiscard]] Eigen::Vector2d position(int quad, const Eigen::Vector2d& xi) const;
    /// xi of a point, by Newton's method from the xi given; whether it gets there. The point may be
    /// a little outside.
    [[nodiscard]] bool to_place(int quad, const Eigen::Vector2d& p, Eigen::Vector2d& xi) const;
    /// xi of a point in the quad. \param margin how far outside still counts, of the square
    [[nodiscard]] std::optional<Eigen::Vector2d> inside(int quad, const Eigen::Vector2d& p,
                                                        double margin = just_outside) const;
    /// Whether a disc lies in the quad.
    [[nodiscard]] bool wholly_inside(int quad, const Eigen::Vector2d& centre, double radius) const;
    /// Quads that may hold the point.
    [[nodiscard]] const std::vector<int>& near(const Eigen::Vector2d& p) const;
    /// Quads that may share an area with the disc, rising.
    [[nodiscard]] std::vector<int> overlapped(const Eigen::Vector2d& centre, double radius) const;
    /// A quad's sides; curved ones in eight parts.
    [[nodiscard]] const Polygon& rim(int quad) const {
        return rim_[static_cast<std::size_t>(quad)];
    }

  private:
    static constexpr double just_outside = 1e-7;
    [[nodiscard]] Polygon sides(int quad) const;

    std::vector<Eigen::Matrix2Xd> shape_; ///< a quad's places, 4 x 4
    std::vector<Polygon> rim_;
    Eigen::Vector2d origin_{0, 0};
    int columns_ = 0, rows_ = 0;
    std::vector<std::vector<int>> cells_; ///< quads by cell of a grid
};

} // namespace vrid
