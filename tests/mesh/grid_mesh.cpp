#include "tests/mesh/grid_mesh.hpp"

#include "mesh/lobatto.hpp"

namespace vrid::tests {

using Eigen::Vector2d;

Mesh grid_mesh(const std::vector<double>& x, const std::vector<double>& y, int geometry_degree,
               const std::function<Vector2d(const Vector2d&)>& place) {
    const int n = static_cast<int>(x.size()) - 1;
    const int m = static_cast<int>(y.size()) - 1;
    const auto at = [&](double px, double py) {
        return place ? place(Vector2d(px, py)) : Vector2d(px, py);
    };
    const auto vertex = [&](int i, int j) { return j * (n + 1) + i; };
    const auto level = [&](int i, int j) { return j * n + i; };                 // along x
    const auto upright = [&](int i, int j) { return (m + 1) * n + i * m + j; }; // along y
    Mesh mesh;
    mesh.geometry_degree = geometry_degree;
    for (const double py : y) {
        for (const double px : x) {
            mesh.vertices.push_back(at(px, py));
        }
    }
    for (int j = 0; j <= m; ++j) {
        for (int i = 0; i < n; ++i) {
            mesh.edges.push_back({vertex(i, j), vertex(i + 1, j)});
        }
    }
    for (int i = 0; i <= n; ++i) {
        mesh.lines.push_back({x[static_cast<std::size_t>(i)], {}});
        for (int j = 0; j < m; ++j) {
            mesh.lines.back().edges.push_back(static_cast<int>(mesh.edges.size()));
            mesh.edges.push_back({vertex(i, j), vertex(i, j + 1)});
        }
    }
    const std::vector<double>& share = lobatto_shares(geometry_degree);
    for (int j = 0; j < m; ++j) {
        for (int i = 0; i < n; ++i) {
            mesh.quads.push_back(
                {vertex(i, j), vertex(i + 1, j), vertex(i + 1, j + 1), vertex(i, j + 1)});
            mesh.quad_edges.push_back(
                {level(i, j), upright(i + 1, j), level(i, j + 1), upright(i, j)});
            Eigen::Matrix2Xd points(2, (geometry_degree + 1) * (geometry_degree + 1));
            Eigen::Index column = 0;
            for (const double v : share) {
                for (const double u : share) {
                    const auto a = static_cast<std::size_t>(i);
                    const auto b = static_cast<std::size_t>(j);
                    points.col(column++) = at((1 - u) * x[a] + u * x[a + 1], //
                                              (1 - v) * y[b] + v * y[b + 1]);
                }
            }
            mesh.geometry.push_back(points);
        }
    }
    for (int i = 0; i < n; ++i) {
        mesh.outline.push_back({i, 0});
    }
    for (int j = 0; j < m; ++j) {
        mesh.outline.push_back({j * n + n - 1, 1});
    }
    for (int i = n - 1; i >= 0; --i) {
        mesh.outline.push_back({(m - 1) * n + i, 2});
    }
    for (int j = m - 1; j >= 0; --j) {
        mesh.outline.push_back({j * n, 3});
    }
    return mesh;
}

} // namespace vrid::tests
