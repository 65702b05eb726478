#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/mesh.hpp"

namespace vrid {

/// Nodes of degree p: tensor Gauss-Lobatto points in each quad, shared on sides. Numbered vertices
/// first (the mesh's numbers), then p - 1 an edge from its lower vertex, then the quads' interiors.
struct Numbering {
    int degree = 1;
    int nodes = 0;
    std::vector<std::vector<int>> quad_nodes; ///< per quad (p+1)^2, xi fastest
    Eigen::Matrix2Xd position;                ///< 2 x nodes [m]
};

Numbering number_nodes(const Mesh& mesh, int degree);

/// The p + 1 nodes of an edge in its direction (from the lower-numbered vertex).
std::vector<int> edge_nodes(const Mesh& mesh, const Numbering& numbering, int edge);

/// The (p+1)^2 points of a quad at the Lobatto points of degree p, 2 x (p+1)^2 [m].
Eigen::Matrix2Xd quad_points(const Mesh& mesh, int quad, const Eigen::MatrixXd& to_points);

/// (g+1)^2 to k^2 interpolation matrix from a quad's geometry points to the tensor grid of the
/// given points of [-1, 1]: k^2 x (g+1)^2.
Eigen::MatrixXd geometry_to_points(const Mesh& mesh, const Eigen::VectorXd& points);

} // namespace vrid
