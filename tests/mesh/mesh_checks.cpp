#include "mesh_checks.hpp"

#include <cmath>
#include <functional>
#include <map>

#include <Eigen/Dense>

#include "mesh/lines.hpp"
#include "mesh/lobatto.hpp"

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::Vector2d;
using vrid::Mesh;

namespace {

// Values at the shares `at` of the polynomials that are 1 at one of the points x and 0 at others.
MatrixXd lagrange(const std::vector<double>& x, const std::vector<double>& at) {
    MatrixXd values = MatrixXd::Ones(static_cast<Index>(at.size()), static_cast<Index>(x.size()));
    for (std::size_t i = 0; i < at.size(); ++i) {
        for (std::size_t k = 0; k < x.size(); ++k) {
            for (std::size_t j = 0; j < x.size(); ++j) {
                if (j != k) {
                    values(static_cast<Index>(i), static_cast<Index>(k)) *=
                        (at[i] - x[j]) / (x[k] - x[j]);
                }
            }
        }
    }
    return values;
}

// Quadrature weights on 0..1 for the points x: exact for polynomials through them.
Eigen::VectorXd weights(const std::vector<double>& x) {
    const auto n = static_cast<Index>(x.size());
    MatrixXd moments(n, n);
    Eigen::VectorXd exact(n);
    for (Index k = 0; k < n; ++k) {
        for (Index i = 0; i < n; ++i) {
            moments(k, i) = std::pow(x[static_cast<std::size_t>(i)], static_cast<double>(k));
        }
        exact[k] = 1.0 / static_cast<double>(k + 1);
    }
    return moments.partialPivLu().solve(exact);
}

// Points on side k of a quad in its own direction, 2 x (g + 1).
Eigen::Matrix2Xd side_points(const Mesh& mesh, int quad, int side) {
    const Index g = mesh.geometry_degree;
    const Eigen::Matrix2Xd& all = mesh.geometry[static_cast<std::size_t>(quad)];
    Eigen::Matrix2Xd points(2, g + 1);
    for (Index i = 0; i <= g; ++i) {
        const Index at = side == 0   ? i
                         : side == 1 ? i * (g + 1) + g
                         : side == 2 ? g * (g + 1) + g - i
                                     : (g - i) * (g + 1);
        points.col(i) = all.col(at);
    }
    return points;
}

} // namespace

double outline_area(const Mesh& mesh) {
    const auto& x = vrid::lobatto_shares(mesh.geometry_degree);
    const Eigen::VectorXd weight = weights(x);
    const MatrixXd& d = vrid::lobatto_derivative(mesh.geometry_degree);
    double area = 0;
    for (const vrid::OutlineEdge& side : mesh.outline) {
        const Eigen::Matrix2Xd p = side_points(mesh, side.quad, side.side);
        const Eigen::Matrix2Xd slope = p * d.transpose();
        for (Index i = 0; i < p.cols(); ++i) {
            area += weight[i] * (p(0, i) * slope(1, i) - p(1, i) * slope(0, i)) / 2;
        }
    }
    return area;
}

double smallest_jacobian(const Mesh& mesh, int degree) {
    std::vector<double> fine;
    for (int k = 0; k <= 10; ++k) {
        fine.push_back(k / 10.0);
    }
    const MatrixXd down =
        lagrange(vrid::lobatto_shares(mesh.geometry_degree), vrid::lobatto_shares(degree));
    const MatrixXd value = lagrange(vrid::lobatto_shares(degree), fine);
    const MatrixXd slope = value * vrid::lobatto_derivative(degree);
    double smallest = 1;
    const Index n = mesh.geometry_degree + 1;
    for (const Eigen::Matrix2Xd& points : mesh.geometry) {
        std::array<MatrixXd, 2> along;
        std::array<MatrixXd, 2> across;
        for (Index c = 0; c < 2; ++c) {
            MatrixXd grid(n, n); // (i, j)
            for (Index j = 0; j < n; ++j) {
                for (Index i = 0; i < n; ++i) {
                    grid(i, j) = points(c, j * n + i);
                }
            }
            const MatrixXd coarse = down * grid * down.transpose();
            along[static_cast<std::size_t>(c)] = slope * coarse * value.transpose();
            across[static_cast<std::size_t>(c)] = value * coarse * slope.transpose();
        }
        const MatrixXd jacobian =
            along[0].cwiseProduct(across[1]) - along[1].cwiseProduct(across[0]);
        smallest = std::min(smallest, jacobian.minCoeff() / jacobian.mean());
    }
    return smallest;
}

bool sides_agree(const Mesh& mesh) {
    std::map<int, Eigen::Matrix2Xd> known;
    std::map<int, int> uses;
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        for (std::size_t k = 0; k < 4; ++k) {
            const int e = mesh.quad_edges[q][k];
            Eigen::Matrix2Xd p = side_points(mesh, static_cast<int>(q), static_cast<int>(k));
            const int a = mesh.quads[q][k];
            const int b = mesh.quads[q][(k + 1) % 4];
            if (mesh.edges[static_cast<std::size_t>(e)] !=
                    std::array<int, 2>{std::min(a, b), std::max(a, b)} ||
                p.col(0) != mesh.vertices[static_cast<std::size_t>(a)]) {
                return false;
            }
            if (a > b) {
                p = p.rowwise().reverse().eval();
            }
            const auto [found, added] = known.try_emplace(e, p);
            if ((!added && found->second != p) || ++uses[e] > 2) {
                return false;
            }
        }
    }
    return uses.size() == mesh.edges.size();
}

int straddling_quads(const vrid::Board& board, const vrid::MeshOptions& options, const Mesh& mesh) {
    const vrid::MeshLines lines = collect_lines(board, options);
    const vrid::OutlineDistance outline(board.planform);
    constexpr double allowed = 1.5e-4; // lines and vertices within 0.05 mm are one, twice over
    int count = 0;
    for (const Eigen::Matrix2Xd& points : mesh.geometry) {
        const auto straddles = [&](const std::function<double(const Vector2d&)>& side) {
            bool left = false;
            bool right = false;
            for (Index k = 0; k < points.cols(); ++k) {
                const double f = side(points.col(k));
                left = left || f > allowed;
                right = right || f < -allowed;
            }
            return left && right;
        };
        bool bad = false;
        for (const vrid::StraightLine& line : lines.straight) {
            if (line.rank < vrid::Rank::foot) {
                continue;
            }
            const double length = (line.b - line.a).norm();
            const Vector2d along = (line.b - line.a) / length;
            bad = bad || straddles([&](const Vector2d& p) {
                      const Vector2d d = p - line.a;
                      const double s = d.dot(along);
                      const bool beside = s > allowed && s < length - allowed;
                      return beside ? along.x() * d.y() - along.y() * d.x() : 0.0;
                  });
        }
        for (const vrid::ParallelLine& parallel : lines.parallels) {
            bad =
                bad || straddles([&](const Vector2d& p) { return outline(p) - parallel.distance; });
        }
        count += bad ? 1 : 0;
    }
    return count;
}

int euler_characteristic(const Mesh& mesh) {
    return static_cast<int>(mesh.vertices.size()) - static_cast<int>(mesh.edges.size()) +
           static_cast<int>(mesh.quads.size());
}

double outline_error(const vrid::Board& board, const Mesh& mesh) {
    const vrid::OutlineDistance outline(board.planform);
    double worst = 0;
    for (const vrid::OutlineEdge& side : mesh.outline) {
        const Eigen::Matrix2Xd p = side_points(mesh, side.quad, side.side);
        for (Index i = 0; i < p.cols(); ++i) {
            worst = std::max(worst, outline(p.col(i)));
        }
    }
    return worst;
}
