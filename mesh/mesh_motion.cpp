#include "mesh/mesh_motion.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

#include "mesh/board/cross.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"
#include "mesh/lobatto.hpp"
#include "mesh/quad_sides.hpp"

namespace vrid {

namespace {

Vector2d left_of(const Vector2d& direction) {
    const Vector2d d = direction.normalized();
    return {-d.y(), d.x()};
}

} // namespace

MeshMotion::MeshMotion(const Mesh& mesh, const Board& board, const MeshLines& lines)
    : mesh_(mesh), board_(board), lines_(lines), distance_(board.planform),
      sides_(mesh.edges.size()), vertices_(mesh.vertices.size()), weight_(mesh.edges.size(), 0) {
    std::vector<char> boundary(mesh.edges.size(), 0);
    for (const OutlineEdge& edge : mesh.outline) {
        const auto side = static_cast<std::size_t>(edge.side);
        boundary[static_cast<std::size_t>(
            mesh.quad_edges[static_cast<std::size_t>(edge.quad)][side])] = 1;
    }
    for (std::size_t quad = 0; quad < mesh.quads.size(); ++quad) {
        for (std::size_t side = 0; side < 4; ++side) {
            const auto edge = static_cast<std::size_t>(mesh.quad_edges[quad][side]);
            if (weight_[edge] == 0) {
                const Eigen::Matrix2Xd points =
                    mesh.geometry[quad](Eigen::all, edge_points(mesh, quad, side));
                weight_[edge] = 1 / (points.col(points.cols() - 1) - points.col(0)).norm();
                add_side(edge, points, boundary[edge] != 0);
            }
        }
    }
    number_unknowns();
    factorise();
}

bool MeshMotion::on_straight(const StraightLine& line, const Eigen::Matrix2Xd& points) const {
    const Vector2d along = line.b - line.a;
    const double length = along.norm();
    for (const Index k : {Index(0), points.cols() / 2, points.cols() - 1}) {
        const Vector2d from = points.col(k) - line.a;
        const double share = from.dot(along) / length;
        if (std::abs(cross(along, from)) > same_line * length || share < -same_line ||
            share > length + same_line) {
            return false;
        }
    }
    return true;
}

MeshMotion::Tie MeshMotion::tie_at(const Tie& of, const Vector2d& at) const {
    Tie tie = of;
    tie.at = at;
    if (of.on == On::straight) {
        const StraightLine& line = lines_.straight[of.line];
        tie.normal = left_of(line.b - line.a);
        return tie;
    }
    tie.foot = distance_.nearest(at);
    const Vector2d foot = point_at(board_.planform, tie.foot);
    tie.normal = of.on == On::parallel ? Vector2d((at - foot).normalized())
                                       : left_of(tangent_at(board_.planform, tie.foot));
    return tie;
}

void MeshMotion::add_side(std::size_t edge, const Eigen::Matrix2Xd& points, bool boundary) {
    const Index last = points.cols() - 1;
    Side& side = sides_[edge];
    side.vertices = mesh_.edges[edge];
    Tie tie;
    bool found = boundary;
    if (!found && !lines_.parallels.empty()) {
        const double here = distance_(points.col(last / 2));
        for (std::size_t k = 0; k < lines_.parallels.size() && !found; ++k) {
            const double wanted = lines_.parallels[k].distance;
            if (std::abs(here - wanted) < same_line &&
                std::abs(distance_(points.col(0)) - wanted) < same_line &&
                std::abs(distance_(points.col(last)) - wanted) < same_line) {
                tie.on = On::parallel;
                tie.line = k;
                found = true;
            }
        }
    }
    for (std::size_t k = 0; k < lines_.straight.size() && !found; ++k) {
        if (on_straight(lines_.straight[k], points)) {
            tie.on = On::straight;
            tie.line = k;
            found = true;
        }
    }
    if (!found) {
        return;
    }
    for (Index k = 1; k < last; ++k) {
        side.inner.push_back(tie_at(tie, points.col(k)));
    }
    // Beside a corner of a line the point of this side tells which of its two normals is meant.
    constexpr double beside = 1e-6;
    for (const std::size_t end : {0, 1}) {
        const Vector2d at = points.col(end == 0 ? 0 : last);
        const Vector2d next = points.col(end == 0 ? 1 : last - 1);
        Tie there = tie_at(tie, at + beside * (next - at));
        there.at = at;
        vertices_[static_cast<std::size_t>(side.vertices[end])].ties.push_back(there);
    }
}

// Of the ties of a vertex the first and the one most across it count; what they leave is unknown.
void MeshMotion::number_unknowns() {
    constexpr double across = 0.02; // sine of the angle between two lines
    for (Vertex& vertex : vertices_) {
        std::vector<Tie>& ties = vertex.ties;
        // the outline and its parallels are met first: they bend
        std::ranges::stable_sort(ties, {}, &Tie::on);
        if (ties.size() > 1) {
            const Vector2d normal = ties.front().normal;
            const auto other =
                std::max_element(ties.begin() + 1, ties.end(), [&](const Tie& a, const Tie& b) {
                    return std::abs(cross(normal, a.normal)) < std::abs(cross(normal, b.normal));
                });
            const bool two = std::abs(cross(normal, other->normal)) > across;
            std::iter_swap(ties.begin() + 1, other);
            ties.resize(two ? 2 : 1);
        }
        vertex.count = 2 - static_cast<int>(ties.size());
        vertex.first = unknowns_;
        unknowns_ += vertex.count;
        if (vertex.count == 1) {
            vertex.free = {-ties[0].normal.y(), ties[0].normal.x()};
        }
    }
}

namespace {

// Directions of a vertex's unknowns.
Vector2d unknown_direction(const Vector2d& free, int count, int k) {
    return count == 1 ? free : k == 0 ? Vector2d(1, 0) : Vector2d(0, 1);
}

} // namespace

void MeshMotion::factorise() {
    std::vector<Eigen::Triplet<double>> entries;
    for (std::size_t edge = 0; edge < sides_.size(); ++edge) {
        for (const int a : sides_[edge].vertices) {
            for (const int b : sides_[edge].vertices) {
                const Vertex& p = vertices_[static_cast<std::size_t>(a)];
                const Vertex& q = vertices_[static_cast<std::size_t>(b)];
                for (int i = 0; i < p.count; ++i) {
                    for (int k = 0; k < q.count; ++k) {
                        entries.emplace_back(p.first + i, q.first + k,
                                             (a == b ? 1 : -1) * weight_[edge] *
                                                 unknown_direction(p.free, p.count, i)
                                                     .dot(unknown_direction(q.free, q.count, k)));
                    }
                }
            }
        }
    }
    Eigen::SparseMatrix<double> matrix(unknowns_, unknowns_);
    matrix.setFromTriplets(entries.begin(), entries.end());
    factor_.compute(matrix);
}

std::vector<Vector2d> MeshMotion::vertex_speeds(const Speed& speeds) const {
    std::vector<Vector2d> given(vertices_.size(), Vector2d::Zero());
    for (std::size_t v = 0; v < vertices_.size(); ++v) {
        const std::vector<Tie>& ties = vertices_[v].ties;
        if (ties.size() == 1) {
            given[v] = speeds(ties[0]) * ties[0].normal;
        } else if (ties.size() == 2) {
            Eigen::Matrix2d normals;
            normals.row(0) = ties[0].normal.transpose();
            normals.row(1) = ties[1].normal.transpose();
            given[v] = normals.inverse() * Vector2d(speeds(ties[0]), speeds(ties[1]));
        }
    }
    Eigen::VectorXd right = Eigen::VectorXd::Zero(unknowns_);
    for (std::size_t edge = 0; edge < sides_.size(); ++edge) {
        const auto [a, b] = sides_[edge].vertices;
        const Vector2d apart = weight_[edge] * (given[static_cast<std::size_t>(b)] -
                                                given[static_cast<std::size_t>(a)]);
        for (const auto& [vertex, sign] : {std::pair(a, 1.0), std::pair(b, -1.0)}) {
            const Vertex& p = vertices_[static_cast<std::size_t>(vertex)];
            for (int i = 0; i < p.count; ++i) {
                right(p.first + i) += sign * unknown_direction(p.free, p.count, i).dot(apart);
            }
        }
    }
    const Eigen::VectorXd found = factor_.solve(right);
    for (std::size_t v = 0; v < vertices_.size(); ++v) {
        for (int i = 0; i < vertices_[v].count; ++i) {
            given[v] += found(vertices_[v].first + i) *
                        unknown_direction(vertices_[v].free, vertices_[v].count, i);
        }
    }
    return given;
}

MeshVelocity MeshMotion::velocity(const LineChange& change) const {
    const LineSpeeds speeds(change, lines_);
    return everywhere([&](const Tie& tie) {
        return tie.on == On::straight
                   ? speeds.straight(tie.line, tie.at, tie.normal)
                   : tie.normal.dot(speeds.outline(tie.foot)) +
                         (tie.on == On::parallel ? speeds.parallel(tie.line) : 0);
    });
}

MeshVelocity
MeshMotion::of_outline(const std::function<double(const OutlinePlace&)>& outwards) const {
    return everywhere([&](const Tie& tie) {
        return tie.on == On::straight
                   ? 0
                   : -tie.normal.dot(left_of(tangent_at(board_.planform, tie.foot))) *
                         outwards(tie.foot);
    });
}

MeshVelocity MeshMotion::onto_lines() const {
    return everywhere([&](const Tie& tie) {
        if (tie.on == On::straight) {
            return ahead(lines_.straight[tie.line], tie.at, tie.normal);
        }
        const double off = tie.normal.dot(point_at(board_.planform, tie.foot) - tie.at);
        return off + (tie.on == On::parallel ? lines_.parallels[tie.line].distance : 0);
    });
}

MeshVelocity MeshMotion::everywhere(const Speed& speeds) const {
    const std::vector<Vector2d> vertex = vertex_speeds(speeds);
    const int g = mesh_.geometry_degree;
    const std::vector<double>& shares = lobatto_shares(g);
    MeshVelocity all(mesh_.quads.size(), Eigen::Matrix2Xd::Zero(2, Index(g + 1) * (g + 1)));
    for (std::size_t quad = 0; quad < all.size(); ++quad) {
        for (std::size_t k = 0; k < 4; ++k) {
            const Side& side = sides_[static_cast<std::size_t>(mesh_.quad_edges[quad][k])];
            const std::vector<Index> at = edge_points(mesh_, quad, k);
            const Vector2d from = vertex[static_cast<std::size_t>(side.vertices[0])];
            const Vector2d to = vertex[static_cast<std::size_t>(side.vertices[1])];
            for (std::size_t s = 0; s < at.size(); ++s) {
                Vector2d speed = (1 - shares[s]) * from + shares[s] * to;
                if (!side.inner.empty() && s > 0 && s + 1 < at.size()) {
                    const Tie& tie = side.inner[s - 1];
                    speed += (speeds(tie) - tie.normal.dot(speed)) * tie.normal;
                }
                all[quad].col(at[s]) = speed;
            }
        }
        fill_quad(all[quad], shares);
    }
    return all;
}

Mesh moved_mesh(const Mesh& mesh, const MeshVelocity& velocity, double share) {
    Mesh moved = mesh;
    const int g = mesh.geometry_degree;
    for (std::size_t quad = 0; quad < mesh.quads.size(); ++quad) {
        moved.geometry[quad] += share * velocity[quad];
        const std::array<Index, 4> corners{0, g, Index(g) * (g + 2), Index(g) * (g + 1)};
        for (std::size_t k = 0; k < 4; ++k) {
            const Index corner = corners[k];
            moved.vertices[static_cast<std::size_t>(mesh.quads[quad][k])] =
                moved.geometry[quad].col(corner);
        }
    }
    for (StationLine& line : moved.lines) {
        const auto edge = static_cast<std::size_t>(line.edges.front());
        line.x = moved.vertices[static_cast<std::size_t>(moved.edges[edge][0])].x();
    }
    return moved;
}

} // namespace vrid
