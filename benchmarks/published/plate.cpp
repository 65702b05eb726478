#include "benchmarks/published/plate.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include <Eigen/Geometry>

#include "solver/element/quadrature.hpp"

namespace vrid::published {

namespace {

using Map2 = std::function<Point(double s, double t)>; // of [0, 1]^2

Point bilinear(const std::array<Point, 4>& c, double u, double v) {
    return (1 - u) * (1 - v) * c[0] + u * (1 - v) * c[1] + u * v * c[2] + (1 - u) * v * c[3];
}

int number_of(std::vector<Point>& vertices, const Point& at) {
    for (std::size_t k = 0; k < vertices.size(); ++k) {
        if ((vertices[k] - at).norm() < 1e-9) {
            return static_cast<int>(k);
        }
    }
    vertices.push_back(at);
    return static_cast<int>(vertices.size()) - 1;
}

// Quads of degree 6 from blocks n x n that meet at equal points.
Mesh mesh_of(const std::vector<Map2>& blocks, int n) {
    constexpr int degree = 6;
    const Eigen::VectorXd points = lobatto(degree + 1).point;
    Mesh mesh;
    mesh.geometry_degree = degree;
    std::map<std::array<int, 2>, int> numbers;
    std::vector<int> uses;
    std::vector<OutlineEdge> last;
    for (const Map2& block : blocks) {
        for (int cell = 0; cell < n * n; ++cell) {
            const double s = cell % n;
            const double t = cell / n; // NOLINT(bugprone-integer-division): the row
            Eigen::Matrix2Xd X(2, (degree + 1) * (degree + 1));
            for (int k = 0; k < X.cols(); ++k) {
                X.col(k) = block((s + (1 + points(k % (degree + 1))) / 2) / n,
                                 (t + (1 + points(k / (degree + 1))) / 2) / n);
            }
            std::array<int, 4> quad{};
            const std::array<int, 4> corner{0, degree, static_cast<int>(X.cols()) - 1,
                                            degree * (degree + 1)};
            for (std::size_t k = 0; k < 4; ++k) {
                quad[k] = number_of(mesh.vertices, X.col(corner[k]));
            }
            std::array<int, 4> edges{};
            for (std::size_t k = 0; k < 4; ++k) {
                const int a = quad[k];
                const int b = quad[(k + 1) % 4];
                const std::array<int, 2> key{std::min(a, b), std::max(a, b)};
                const auto [found, added] =
                    numbers.try_emplace(key, static_cast<int>(mesh.edges.size()));
                if (added) {
                    mesh.edges.push_back(key);
                    uses.push_back(0);
                    last.emplace_back();
                }
                edges[k] = found->second;
                ++uses[static_cast<std::size_t>(edges[k])];
                last[static_cast<std::size_t>(edges[k])] = {static_cast<int>(mesh.quads.size()),
                                                            static_cast<int>(k)};
            }
            mesh.quads.push_back(quad);
            mesh.quad_edges.push_back(edges);
            mesh.geometry.push_back(X);
        }
    }
    for (std::size_t e = 0; e < uses.size(); ++e) {
        if (uses[e] == 1) {
            mesh.outline.push_back(last[e]);
        }
    }
    return mesh;
}

} // namespace

Mesh graded_patch(const std::array<Point, 4>& corners, const std::vector<double>& u,
                  const std::vector<double>& v) {
    const int nx = static_cast<int>(u.size()) - 1;
    const int ny = static_cast<int>(v.size()) - 1;
    Mesh mesh = mesh_patch(corners, nx, ny);
    for (std::size_t k = 0; k < mesh.vertices.size(); ++k) {
        mesh.vertices[k] = bilinear(corners, u[k % u.size()], v[k / u.size()]);
    }
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        const std::array<int, 4>& quad = mesh.quads[q];
        const std::array<std::size_t, 4> order{0, 1, 3, 2};
        for (std::size_t k = 0; k < 4; ++k) {
            mesh.geometry[q].col(static_cast<Eigen::Index>(k)) =
                mesh.vertices[static_cast<std::size_t>(quad[order[k]])];
        }
    }
    for (StationLine& line : mesh.lines) {
        const auto& edge = mesh.edges[static_cast<std::size_t>(line.edges.front())];
        line.x = mesh.vertices[static_cast<std::size_t>(edge[0])].x();
    }
    return mesh;
}

std::array<Point, 4> rectangle(double a, double b) {
    return {{{0, 0}, {a, 0}, {a, b}, {0, b}}};
}

std::array<Point, 4> rhombus(double angle) {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    return {{{0, 0}, {1, 0}, {1 + c, s}, {c, s}}};
}

std::vector<double> graded(int middle, int layers, double ratio) {
    const double step = 1.0 / (middle + (layers > 0 ? 2 : 0));
    std::vector<double> at{0};
    for (int k = layers - 1; k >= 0; --k) {
        at.push_back(step * std::pow(ratio, k));
    }
    const double from = layers > 0 ? step : 0;
    for (int k = 1; k < middle; ++k) {
        at.push_back(from + k * (1 - 2 * from) / middle);
    }
    for (int k = 0; k < layers; ++k) {
        at.push_back(1 - step * std::pow(ratio, k));
    }
    at.push_back(1);
    return at;
}

Mesh disc(double R, double c, int n) {
    using std::numbers::pi;
    const double side = 0.55 * c; // of the core square, half
    std::vector<Map2> blocks{
        [=](double s, double t) { return Point((2 * s - 1) * side, (2 * t - 1) * side); }};
    for (int k = 0; k < 4; ++k) {
        // from the core's side k outwards (s), along it anti-clockwise (t)
        const auto ray = [=](double t) {
            const double angle = k * pi / 2 + (t - 0.5) * pi / 2;
            return Point(std::cos(angle), std::sin(angle));
        };
        const auto core = [=](double t) {
            const Eigen::Rotation2Dd turn(k * pi / 2);
            return Point(turn * Point(side, (2 * t - 1) * side));
        };
        blocks.emplace_back(
            [=](double s, double t) -> Point { return (1 - s) * core(t) + s * c * ray(t); });
        if (R > c) {
            blocks.emplace_back(
                [=](double s, double t) -> Point { return (c + (R - c) * s) * ray(t); });
        }
    }
    return mesh_of(blocks, n);
}

void support(Loading& loading, const PlateModel& model, Support kind,
             const std::function<bool(double x, double y)>& on) {
    const std::vector<int> nodes = tests::outline_nodes(model, on);
    for (const Component c : {comp_u, comp_v, comp_w}) {
        prescribe(loading, nodes, c);
    }
    if (kind == Support::clamped) {
        prescribe(loading, nodes, comp_bx);
        prescribe(loading, nodes, comp_by);
    } else if (kind == Support::hard) {
        for (const OutlineEdge& side : model.mesh.outline) {
            const int edge = model.mesh.quad_edges[static_cast<std::size_t>(side.quad)]
                                                  [static_cast<std::size_t>(side.side)];
            const std::vector<int> line = edge_nodes(model.mesh, model.numbering, edge);
            const Point along = model.numbering.position.col(line.back()) -
                                model.numbering.position.col(line.front());
            const Component turn = std::abs(along.x()) > std::abs(along.y()) ? comp_bx : comp_by;
            const Point mid = model.numbering.position.col(line.front()) + along / 2;
            if (on(mid.x(), mid.y())) {
                prescribe(loading, line, turn);
            }
        }
    }
}

double Bent::w(double x, double y) const {
    return u(unknowns_per_node * tests::nearest_node(model, x, y) + comp_w);
}

Eigen::Vector3d Bent::moment(double x, double y) const {
    const int node = tests::nearest_node(model, x, y);
    const ReferenceElement at_nodes = reference_element(model.reference.p, model.reference.nodes);
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    int count = 0;
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        const auto found = std::find(nodes.begin(), nodes.end(), node);
        if (found == nodes.end()) {
            continue;
        }
        Eigen::VectorXd part(unknowns_per_node * static_cast<Eigen::Index>(nodes.size()));
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            part.segment<unknowns_per_node>(unknowns_per_node * static_cast<Eigen::Index>(i)) =
                u.segment<unknowns_per_node>(unknowns_per_node * nodes[i]);
        }
        const ElementTables tables =
            element_tables(at_nodes, element_nodes(model, static_cast<int>(quad)));
        const Eigen::VectorXd strain =
            element_strains(at_nodes, tables, part).col(found - nodes.begin());
        const PlateStiffness& c = model.stiffness.front();
        sum += c.B * strain.head<3>() + c.D * strain.segment<3>(3);
        ++count;
    }
    return sum / count;
}

Bent bent(PlateModel model, const Loading& loading) {
    const CaseSolution solution = tests::solve_one(model, loading);
    return {std::move(model), solution.u};
}

double bending_stiffness(double E, double nu, double t) {
    return E * t * t * t / (12 * (1 - nu * nu));
}

} // namespace vrid::published
