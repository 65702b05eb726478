#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <map>

#include "mesh/assembly.hpp"
#include "mesh/mesher.hpp"
#include "mesh/quality.hpp"

namespace vrid {

namespace {

// A fixed pattern in -1..1 without period, for moving inner vertices.
Vector2d wobble(int i, int j) {
    const double a = 12.9898 * i + 78.233 * j;
    const double b = 39.3461 * i + 11.135 * j;
    return {std::sin(a), std::sin(b)};
}

// Vertices row by row, the inner ones moved.
std::vector<Vector2d> grid_points(const std::array<Vector2d, 4>& corners, int nx, int ny,
                                  double distort) {
    const auto bilinear = [&](double u, double v) -> Vector2d {
        return (1 - u) * (1 - v) * corners[0] + u * (1 - v) * corners[1] + u * v * corners[2] +
               (1 - u) * v * corners[3];
    };
    std::vector<Vector2d> points;
    for (int j = 0; j <= ny; ++j) {
        for (int i = 0; i <= nx; ++i) {
            const bool inner = i > 0 && i < nx && j > 0 && j < ny;
            // half a step of the pattern each way: 0.4 still leaves every quad convex
            const Vector2d move = inner ? Vector2d(wobble(i, j) * distort / 2) : Vector2d(0, 0);
            points.push_back(bilinear((i + move.x()) / nx, (j + move.y()) / ny));
        }
    }
    return points;
}

// Numbers the edges between vertices as they are asked for.
class EdgeNumbers {
  public:
    explicit EdgeNumbers(Mesh& mesh) : mesh_(mesh) {}
    int operator()(int a, int b) {
        const std::array<int, 2> key{std::min(a, b), std::max(a, b)};
        const auto [found, added] = numbers_.try_emplace(key, mesh_.edges.size());
        if (added) {
            mesh_.edges.push_back(key);
        }
        return found->second;
    }

  private:
    Mesh& mesh_;
    std::map<std::array<int, 2>, int> numbers_;
};

void add_quads(Mesh& mesh, EdgeNumbers& edge, int nx, int ny) {
    for (int j = 0; j < ny; ++j) {
        for (int i = 0; i < nx; ++i) {
            const int v = j * (nx + 1) + i;
            const std::array<int, 4> quad{v, v + 1, v + nx + 2, v + nx + 1};
            mesh.quads.push_back(quad);
            const int below = edge(quad[0], quad[1]);
            const int right = edge(quad[1], quad[2]);
            const int above = edge(quad[2], quad[3]);
            mesh.quad_edges.push_back({below, right, above, edge(quad[3], quad[0])});
            Eigen::Matrix2Xd points(2, 4);
            const auto at = [&](std::size_t k) {
                return mesh.vertices[static_cast<std::size_t>(quad[k])];
            };
            points << at(0), at(1), at(3), at(2); // xi fastest
            mesh.geometry.push_back(points);
        }
    }
}

void add_outline(Mesh& mesh, int nx, int ny) {
    for (int i = 0; i < nx; ++i) {
        mesh.outline.push_back({i, 0});
    }
    for (int j = 0; j < ny; ++j) {
        mesh.outline.push_back({j * nx + nx - 1, 1});
    }
    for (int i = nx; i-- > 0;) {
        mesh.outline.push_back({(ny - 1) * nx + i, 2});
    }
    for (int j = ny; j-- > 0;) {
        mesh.outline.push_back({j * nx, 3});
    }
}

// A column of vertices that stands at one x is a line across the patch.
void add_lines(Mesh& mesh, EdgeNumbers& edge, int nx, int ny) {
    for (int i = 0; i <= nx; ++i) {
        StationLine line{mesh.vertices[static_cast<std::size_t>(i)].x(), {}};
        bool straight = true;
        for (int j = 0; j < ny; ++j) {
            const int below = j * (nx + 1) + i;
            const int above = below + nx + 1;
            line.edges.push_back(edge(below, above));
            const double x = mesh.vertices[static_cast<std::size_t>(above)].x();
            straight = straight && std::abs(x - line.x) < 1e-12 * (1 + std::abs(line.x));
        }
        if (straight) {
            mesh.lines.push_back(line);
        }
    }
}

} // namespace

Mesh mesh_patch(const std::array<Vector2d, 4>& corners, int nx, int ny, double distort) {
    assert(nx > 0 && ny > 0 && distort >= 0 && distort <= 0.4);
    Mesh mesh;
    mesh.vertices = grid_points(corners, nx, ny, distort);
    EdgeNumbers edge(mesh);
    add_quads(mesh, edge, nx, ny);
    add_outline(mesh, nx, ny);
    add_lines(mesh, edge, nx, ny);
    mesh.min_scaled_jacobian = worst_place(mesh).corner_sine;
    return mesh;
}

} // namespace vrid
