#include "mesh/quality.hpp"

#include <algorithm>

#include "mesh/lobatto.hpp"

namespace vrid {

namespace {

double sine(const Vector2d& a, const Vector2d& b) {
    const double size = a.norm() * b.norm();
    return size > 0 ? (a.x() * b.y() - a.y() * b.x()) / size : 0;
}

} // namespace

double smallest_sine(const std::array<Vector2d, 4>& corners) {
    double smallest = 1;
    for (std::size_t k = 0; k < 4; ++k) {
        const Vector2d next = corners[(k + 1) % 4] - corners[k];
        const Vector2d before = corners[(k + 3) % 4] - corners[k];
        smallest = std::min(smallest, sine(next, before));
    }
    return smallest;
}

WorstPlace worst_place(const Mesh& mesh) {
    WorstPlace worst;
    const Eigen::MatrixXd& d = lobatto_derivative(mesh.geometry_degree);
    const Eigen::Index n = mesh.geometry_degree + 1;
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        std::array<Vector2d, 4> corners;
        for (std::size_t k = 0; k < 4; ++k) {
            corners[k] = mesh.vertices[static_cast<std::size_t>(mesh.quads[q][k])];
        }
        double corner = smallest_sine(corners);
        double inner = corner;
        const Eigen::Matrix2Xd& points = mesh.geometry[q];
        for (Eigen::Index j = 0; j < n; ++j) {
            for (Eigen::Index i = 0; i < n; ++i) {
                Vector2d along = Vector2d::Zero();
                Vector2d across = Vector2d::Zero();
                for (Eigen::Index k = 0; k < n; ++k) {
                    along += d(i, k) * points.col(j * n + k);
                    across += d(j, k) * points.col(k * n + i);
                }
                const double here = sine(along, across);
                inner = std::min(inner, here);
                const bool at_corner = (i == 0 || i == n - 1) && (j == 0 || j == n - 1);
                corner = at_corner ? std::min(corner, here) : corner;
            }
        }
        if (corner < worst.corner_sine) {
            worst.corner_sine = corner;
            worst.corner_quad = static_cast<int>(q);
        }
        if (inner < worst.inner_sine) {
            worst.inner_sine = inner;
            worst.inner_quad = static_cast<int>(q);
        }
    }
    return worst;
}

} // namespace vrid
