#include "solver/system/numbering.hpp"
#include "mesh/quad_sides.hpp"

#include <algorithm>
#include <array>

#include "solver/element/quadrature.hpp"

namespace vrid {

Eigen::MatrixXd geometry_to_points(const Mesh& mesh, const Eigen::VectorXd& points) {
    const Eigen::MatrixXd line = lagrange(lobatto(mesh.geometry_degree + 1).point, points);
    return tensor(line, line);
}

Eigen::Matrix2Xd quad_points(const Mesh& mesh, int quad, const Eigen::MatrixXd& to_points) {
    return mesh.geometry[static_cast<std::size_t>(quad)] * to_points.transpose();
}

std::vector<int> edge_nodes(const Mesh& mesh, const Numbering& numbering, int edge) {
    const auto& ends = mesh.edges[static_cast<std::size_t>(edge)];
    const int inner = numbering.degree - 1;
    std::vector<int> nodes{ends[0]};
    for (int k = 0; k < inner; ++k) {
        nodes.push_back(static_cast<int>(mesh.vertices.size()) + edge * inner + k);
    }
    nodes.push_back(ends[1]);
    return nodes;
}

Numbering number_nodes(const Mesh& mesh, int degree) {
    const int p = degree;
    const int k = p + 1;
    Numbering numbering;
    numbering.degree = p;
    const auto vertices = static_cast<int>(mesh.vertices.size());
    const auto edges = static_cast<int>(mesh.edges.size());
    const auto quads = static_cast<int>(mesh.quads.size());
    const int first_interior = vertices + edges * (p - 1);
    numbering.nodes = first_interior + quads * (p - 1) * (p - 1);
    numbering.quad_nodes.assign(mesh.quads.size(),
                                std::vector<int>(static_cast<std::size_t>(k * k)));
    numbering.position.resize(2, numbering.nodes);
    const Eigen::MatrixXd to_nodes = geometry_to_points(mesh, lobatto(k).point);
    for (int e = 0; e < quads; ++e) {
        std::vector<int>& nodes = numbering.quad_nodes[static_cast<std::size_t>(e)];
        const auto& corner = mesh.quads[static_cast<std::size_t>(e)];
        for (int side = 0; side < 4; ++side) {
            const int edge =
                mesh.quad_edges[static_cast<std::size_t>(e)][static_cast<std::size_t>(side)];
            std::vector<int> line = edge_nodes(mesh, numbering, edge);
            if (line.front() != corner[static_cast<std::size_t>(side)]) {
                std::ranges::reverse(line);
            }
            const std::vector<Eigen::Index> places = side_points(side, p);
            for (std::size_t s = 0; s < places.size(); ++s) {
                nodes[static_cast<std::size_t>(places[s])] = line[s];
            }
        }
        for (int j = 1; j < p; ++j) {
            for (int i = 1; i < p; ++i) {
                nodes[static_cast<std::size_t>(j * k + i)] =
                    first_interior + e * (p - 1) * (p - 1) + (j - 1) * (p - 1) + i - 1;
            }
        }
        const Eigen::Matrix2Xd points = quad_points(mesh, e, to_nodes);
        for (int c = 0; c < k * k; ++c) {
            numbering.position.col(nodes[static_cast<std::size_t>(c)]) = points.col(c);
        }
    }
    return numbering;
}

} // namespace vrid
