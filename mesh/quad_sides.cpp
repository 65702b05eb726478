#include "mesh/quad_sides.hpp"

#include <algorithm>

namespace vrid {

std::vector<Index> side_points(int side, int g) {
    std::vector<Index> all;
    for (int s = 0; s <= g; ++s) {
        const int i = side == 0 ? s : side == 1 ? g : side == 2 ? g - s : 0;
        const int j = side == 0 ? 0 : side == 1 ? s : side == 2 ? g : g - s;
        all.push_back(Index(j) * (g + 1) + i);
    }
    return all;
}

std::vector<Index> edge_points(const Mesh& mesh, std::size_t quad, std::size_t side) {
    std::vector<Index> at = side_points(static_cast<int>(side), mesh.geometry_degree);
    const auto edge = static_cast<std::size_t>(mesh.quad_edges[quad][side]);
    if (mesh.edges[edge][0] != mesh.quads[quad][side]) {
        std::ranges::reverse(at);
    }
    return at;
}

void fill_quad(Eigen::Matrix2Xd& points, const std::vector<double>& shares) {
    const auto g = static_cast<Index>(shares.size()) - 1;
    const auto at = [&](Index i, Index j) -> Eigen::Matrix2Xd::ColXpr {
        return points.col(j * (g + 1) + i);
    };
    for (Index j = 1; j < g; ++j) {
        for (Index i = 1; i < g; ++i) {
            const double u = shares[static_cast<std::size_t>(i)];
            const double v = shares[static_cast<std::size_t>(j)];
            at(i, j) = (1 - v) * at(i, 0) + v * at(i, g) + (1 - u) * at(0, j) + u * at(g, j) -
                       (1 - u) * (1 - v) * at(0, 0) - u * (1 - v) * at(g, 0) - u * v * at(g, g) -
                       (1 - u) * v * at(0, g);
        }
    }
}

} // namespace vrid
