#include "benchmarks/published/turned.hpp"

#include <cmath>
#include <vector>

#include <Eigen/LU>

#include "mesh/board/error.hpp"

namespace vrid::published {

namespace {

using Eigen::Matrix2d;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Per node: columns along and across the side; identity inside the plate.
using Frames = std::vector<Matrix2d>;

Frames hold_sides(Loading& loading, const PlateModel& model,
                  const std::function<bool(double x, double y)>& on) {
    Frames frames(static_cast<std::size_t>(model.numbering.nodes), Matrix2d::Identity());
    std::vector<char> seen(frames.size(), 0);
    for (const OutlineEdge& side : model.mesh.outline) {
        const int edge = model.mesh.quad_edges[static_cast<std::size_t>(side.quad)]
                                              [static_cast<std::size_t>(side.side)];
        const std::vector<int> line = edge_nodes(model.mesh, model.numbering, edge);
        const Point first = model.numbering.position.col(line.front());
        const Point along = Point(model.numbering.position.col(line.back())) - first;
        const Point mid = first + along / 2;
        if (!on(mid.x(), mid.y())) {
            continue;
        }
        const Point t = along.normalized();
        for (const int node : line) {
            const auto n = static_cast<std::size_t>(node);
            prescribe(loading, {node}, comp_w);
            prescribe(loading, {node}, comp_bx); // of the turned pair: along the side
            if (seen[n] == 0) {
                frames[n] << t.x(), -t.y(), t.y(), t.x();
                seen[n] = 1;
            } else if (std::abs(frames[n].col(0).dot(t)) < 1 - 1e-9) {
                prescribe(loading, {node}, comp_by);
            }
        }
    }
    return frames;
}

void turn_rotations(const Frames& frames, bool to_sides, VectorXd& v) {
    for (std::size_t n = 0; n < frames.size(); ++n) {
        auto pair = v.segment<2>(unknowns_per_node * static_cast<Eigen::Index>(n) + comp_bx);
        pair = to_sides ? Eigen::Vector2d(frames[n].transpose() * pair)
                        : Eigen::Vector2d(frames[n] * pair);
    }
}

void turn_stiffness(const Frames& frames, const std::vector<int>& nodes, MatrixXd& K) {
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const Matrix2d& frame = frames[static_cast<std::size_t>(nodes[i])];
        const auto at = unknowns_per_node * static_cast<Eigen::Index>(i) + comp_bx;
        K.middleCols<2>(at) = MatrixXd(K.middleCols<2>(at) * frame);
        K.middleRows<2>(at) = MatrixXd(frame.transpose() * K.middleRows<2>(at));
    }
}

} // namespace

Bent bent_on_hard_sides(PlateModel model, Loading loading,
                        const std::function<bool(double x, double y)>& on) {
    const Frames frames = hold_sides(loading, model, on);
    const EliminationTree tree = elimination_order(model.numbering, {});
    const Factor factor = factorise(
        tree,
        [&](int quad, MatrixXd& K) {
            quad_stiffness(model, quad, K);
            turn_stiffness(frames, model.numbering.quad_nodes[static_cast<std::size_t>(quad)], K);
        },
        loading.fixed);
    VectorXd u = VectorXd::Zero(model.unknowns());
    double change = 1;
    for (int round = 0; round < 3; ++round) {
        const VectorXd Ku = internal_forces(model, u);
        VectorXd missing = loading.force - Ku;
        turn_rotations(frames, true, missing);
        VectorXd step = solve(factor, missing);
        turn_rotations(frames, false, step);
        turn_rotations(frames, false, missing);
        change = std::sqrt(std::abs(missing.dot(step) / (u + step).dot(loading.force)));
        u += step;
    }
    if (!(change < 1e-6)) {
        throw SolveError("solution", "refinement still changes " + std::to_string(change));
    }
    return {std::move(model), u};
}

} // namespace vrid::published
