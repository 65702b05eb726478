#include "solver/system/edge_line.hpp"
#include "mesh/quad_sides.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

#include "mesh/board/error.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

constexpr double across = 1e-6; // share of an edge's length that it must advance along x
// A tail or nose that is cut in has two tips, and between them the outline turns back by more than
// a drawn outline wavers [m]; not before the outer quarters of the length.
constexpr double turn_back = 1e-3;
constexpr double end_share = 0.25;

int first_vertex(const Mesh& mesh, const OutlineEdge& edge) {
    return mesh.quads[static_cast<std::size_t>(edge.quad)][static_cast<std::size_t>(edge.side)];
}

int second_vertex(const Mesh& mesh, const OutlineEdge& edge) {
    return first_vertex(mesh, {edge.quad, (edge.side + 1) % 4});
}

// The outline starting at the vertex with the largest x (left) or the smallest (right), as long as
// it runs to the other end.
std::vector<OutlineEdge> half_outline(const Mesh& mesh, Side side) {
    const double sign = side == Side::left ? 1 : -1;
    const auto x = [&](const OutlineEdge& e) {
        return sign * mesh.vertices[static_cast<std::size_t>(first_vertex(mesh, e))].x();
    };
    std::vector<OutlineEdge> loop = mesh.outline;
    const auto less = [&](const OutlineEdge& a, const OutlineEdge& b) { return x(a) < x(b); };
    std::rotate(loop.begin(), std::ranges::max_element(loop, less), loop.end());
    loop.erase(std::ranges::min_element(loop, less), loop.end());
    return loop;
}

// Of a half outline from one end to the other the part up to the first tip that it comes to from
// the middle, at either end: what lies beyond belongs to the notch or to the other side.
void cut_at_tips(const Mesh& mesh, std::vector<OutlineEdge>& half) {
    if (half.empty()) {
        return;
    }
    std::vector<double> x; // of the vertices, rising from end to end on the whole
    for (const OutlineEdge& edge : half) {
        x.push_back(mesh.vertices[static_cast<std::size_t>(first_vertex(mesh, edge))].x());
    }
    const OutlineEdge& last = half.back();
    x.push_back(mesh.vertices[static_cast<std::size_t>(second_vertex(mesh, last))].x());
    const double sign = x.back() > x.front() ? 1 : -1;
    const double length = std::abs(x.back() - x.front());
    const auto from_middle = [&](std::size_t i) {
        return sign * (x[i] - (x.front() + x.back()) / 2) / length;
    };
    const auto tip = [&](std::size_t start, int step) { // the vertex at which the walk ends
        std::size_t best = start;
        for (std::size_t i = start;; i += static_cast<std::size_t>(step)) {
            if (step * from_middle(i) > step * from_middle(best)) {
                best = i;
            }
            const double back = step * (from_middle(best) - from_middle(i)) * length;
            const bool at_end = step * from_middle(best) > 0.5 - end_share;
            if ((at_end && back > turn_back) || i == (step > 0 ? x.size() - 1 : 0)) {
                return best;
            }
        }
    };
    std::size_t middle = 0;
    for (std::size_t i = 1; i < x.size(); ++i) {
        middle = std::abs(from_middle(i)) < std::abs(from_middle(middle)) ? i : middle;
    }
    const auto from = static_cast<std::ptrdiff_t>(tip(middle, -1));
    const auto to = static_cast<std::ptrdiff_t>(tip(middle, 1));
    half = {half.begin() + from, half.begin() + to};
}

// Nodes of an outline edge in the direction of the outline.
std::vector<int> nodes_along(const PlateModel& model, const OutlineEdge& outline) {
    const auto quad = static_cast<std::size_t>(outline.quad);
    const auto side = static_cast<std::size_t>(outline.side);
    std::vector<int> nodes =
        edge_nodes(model.mesh, model.numbering, model.mesh.quad_edges[quad][side]);
    if (nodes.front() != model.mesh.quads[quad][side]) {
        std::ranges::reverse(nodes);
    }
    return nodes;
}

} // namespace

EdgeLine edge_line(const PlateModel& model, Side side) {
    EdgeLine line;
    line.side = side;
    line.degree = model.numbering.degree;
    std::vector<OutlineEdge> edges = half_outline(model.mesh, side);
    cut_at_tips(model.mesh, edges);
    const bool backwards = side == Side::left; // counter-clockwise is from nose to tail there
    if (backwards) {
        std::ranges::reverse(edges);
    }
    const auto& position = model.numbering.position;
    for (const OutlineEdge& edge : edges) {
        std::vector<int> nodes = nodes_along(model, edge);
        if (backwards) {
            std::ranges::reverse(nodes);
        }
        const Eigen::Vector2d chord = position.col(nodes.back()) - position.col(nodes.front());
        if (chord.x() < across * chord.norm()) {
            continue;
        }
        EdgeSegment segment{edge.quad, edge.side, {}};
        for (const int node : nodes) {
            if (line.node.empty() || line.node.back() != node) {
                line.node.push_back(node);
            }
            segment.node.push_back(static_cast<int>(line.node.size()) - 1);
        }
        line.segments.push_back(segment);
    }
    if (line.segments.empty()) {
        throw SolveError("edge line", "the mesh has no running edge on this side");
    }
    line.X.resize(2, static_cast<Index>(line.node.size()));
    for (std::size_t i = 0; i < line.node.size(); ++i) {
        line.X.col(static_cast<Index>(i)) = position.col(line.node[i]);
    }
    return line;
}

EdgePoints edge_points(const EdgeLine& line, const Rule& rule) {
    const Eigen::VectorXd nodes = lobatto(line.degree + 1).point;
    EdgePoints points;
    points.N = lagrange(nodes, rule.point);
    const MatrixXd tangent =
        at_points(line, {lagrange_slope(nodes, rule.point), {}, {}}, line.X.transpose());
    points.X = at_points(line, points, line.X.transpose()).transpose();
    points.ds = tangent.rowwise().norm().cwiseProduct(
        rule.weight.replicate(static_cast<Index>(line.segments.size()), 1));
    return points;
}

MatrixXd at_points(const EdgeLine& line, const EdgePoints& points, const MatrixXd& nodal) {
    const Index q = points.places();
    MatrixXd values(q * static_cast<Index>(line.segments.size()), nodal.cols());
    MatrixXd part(line.degree + 1, nodal.cols());
    for (std::size_t s = 0; s < line.segments.size(); ++s) {
        for (Index i = 0; i <= line.degree; ++i) {
            part.row(i) = nodal.row(line.segments[s].node[static_cast<std::size_t>(i)]);
        }
        values.middleRows(q * static_cast<Index>(s), q).noalias() = points.N * part;
    }
    return values;
}

Eigen::VectorXd to_nodes(const EdgeLine& line, const EdgePoints& points,
                         const Eigen::VectorXd& values) {
    const Index q = points.places();
    Eigen::VectorXd nodal = Eigen::VectorXd::Zero(line.nodes());
    for (std::size_t s = 0; s < line.segments.size(); ++s) {
        const Eigen::VectorXd part =
            points.N.transpose() * values.segment(q * static_cast<Index>(s), q);
        for (Index i = 0; i <= line.degree; ++i) {
            nodal(line.segments[s].node[static_cast<std::size_t>(i)]) += part(i);
        }
    }
    return nodal;
}

namespace {

// d/dx above d/dy at a node of a segment, 2 x nodes of its quad.
Eigen::Matrix<double, 2, Eigen::Dynamic> gradient_at(const ReferenceElement& at_nodes,
                                                     const Eigen::Matrix2Xd& X, Index place) {
    Eigen::Matrix<double, 2, Eigen::Dynamic> local(2, X.cols());
    local << at_nodes.dxi.row(place), at_nodes.deta.row(place);
    const Eigen::Matrix2d J = local * X.transpose();
    return J.inverse() * local;
}

// Calls visit(row, node numbers of the quad, gradient) for the p + 1 nodes of every segment.
template <class Visit>
void for_each_slope(const PlateModel& model, const EdgeLine& line, const Visit& visit) {
    const int p = line.degree;
    const ReferenceElement at_nodes = reference_element(p, model.reference.nodes);
    Index row = 0;
    for (const EdgeSegment& segment : line.segments) {
        const auto& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(segment.quad)];
        const Eigen::Matrix2Xd X = element_nodes(model, segment.quad);
        std::vector<Index> places = side_points(segment.side, p);
        if (line.side == Side::left) {
            std::ranges::reverse(places);
        }
        for (const Index place : places) {
            visit(row++, nodes, gradient_at(at_nodes, X, place));
        }
    }
}

Index w_unknown(int node) {
    return Index(unknowns_per_node) * node + comp_w;
}

} // namespace

Eigen::SparseMatrix<double> edge_slope_loads(const PlateModel& model, const EdgeLine& line) {
    const Index count = (line.degree + 1) * static_cast<Index>(line.segments.size());
    std::vector<Eigen::Triplet<double>> entries;
    for_each_slope(model, line, [&](Index row, const auto& nodes, const auto& gradient) {
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            const auto unknown = static_cast<int>(w_unknown(nodes[i]));
            for (const Index d : {0, 1}) {
                entries.emplace_back(unknown, static_cast<int>(d * count + row),
                                     gradient(d, static_cast<Index>(i)));
            }
        }
    });
    const auto chords = static_cast<Index>(line.chords.size());
    for (Index c = 0; c < chords; ++c) {
        const auto chord = line_slope_load(model, line.chords[static_cast<std::size_t>(c)],
                                           static_cast<int>(2 * count + c));
        entries.insert(entries.end(), chord.begin(), chord.end());
    }
    Eigen::SparseMatrix<double> loads(model.unknowns(), 2 * count + chords);
    loads.setFromTriplets(entries.begin(), entries.end());
    return loads;
}

} // namespace vrid
