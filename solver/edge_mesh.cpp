#include "solver/edge_mesh.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cases/foot_strip.hpp"
#include "solver/mesh_request.hpp"

namespace vrid {

namespace {

// The feet as a case that no bench has.
BenchCase standing() {
    BenchCase feet;
    feet.needs_feet = true;
    feet.stations = [](const Board& board) {
        std::vector<double> lines = foot_lines(board);
        lines.push_back(board.stance->rear()); // shares are split there
        lines.push_back(board.stance->front());
        return lines;
    };
    return feet;
}

} // namespace

std::vector<double> edge_stations(const Board& board) {
    const BenchCase feet = standing();
    return case_stations(board, {&feet});
}

MeshOptions edge_mesh_request(const Layup<double>& layup, double size, const RestShape* rest) {
    const BenchCase feet = standing();
    return mesh_request(layup, {&feet}, size, rest);
}

std::vector<int> foot_patch(const Board& board, const PlateModel& model, double foot) {
    std::vector<int> all;
    for (const std::vector<int>& nodes : model.numbering.quad_nodes) {
        Eigen::Vector2d mean = Eigen::Vector2d::Zero();
        for (const int node : nodes) {
            mean += model.numbering.position.col(node) / static_cast<double>(nodes.size());
        }
        if (std::abs(mean.x() - foot) < board.stance->foot_length / 2 &&
            std::abs(mean.y()) < board.stance->foot_width / 2) {
            all.insert(all.end(), nodes.begin(), nodes.end());
        }
    }
    sort_distinct(all);
    if (all.empty()) {
        throw InputError(board.file, "[stance]: the foot at x = " + std::to_string(foot) +
                                         " m does not stand on the board");
    }
    return all;
}

VectorXd rest_heights(const Board& board, const EdgePoints& points) {
    VectorXd rest = VectorXd::Zero(points.X.cols());
    if (board.rest_shape) {
        const RestShape shape{*board.rest_shape, smooth_slopes(*board.rest_shape)};
        for (Index i = 0; i < rest.size(); ++i) {
            rest(i) = shape.z(points.X(0, i));
        }
    }
    return rest;
}

} // namespace vrid
