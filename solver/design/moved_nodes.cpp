#include "solver/design/moved_nodes.hpp"

#include <algorithm>

#include "solver/design/section_slopes.hpp"

namespace vrid {

Moves moves_of(const PlateModel& model, const MeshVelocity& velocity) {
    const ReferenceElement& r = model.reference;
    const MatrixXd to_nodes = geometry_to_points(model.mesh, r.nodes);
    const MatrixXd to_points = geometry_to_points(model.mesh, r.rule.point);
    Moves moves{Eigen::Matrix2Xd::Zero(2, model.numbering.nodes),
                Eigen::Matrix2Xd(2, static_cast<Index>(velocity.size()) * r.m)};
    for (std::size_t quad = 0; quad < velocity.size(); ++quad) {
        const Eigen::Matrix2Xd own = velocity[quad] * to_nodes.transpose();
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            moves.nodes.col(nodes[i]) = own.col(static_cast<Index>(i));
        }
        moves.points.middleCols(static_cast<Index>(quad) * r.m, r.m) =
            velocity[quad] * to_points.transpose();
    }
    return moves;
}

PlateModel bare_copy(const PlateModel& model) {
    return {model.mesh, model.numbering, model.reference, {}, {}, nullptr};
}

void move_nodes(PlateModel& copy, const PlateModel& model, const Moves& moves, double share) {
    copy.numbering.position = model.numbering.position + share * moves.nodes;
    for (std::size_t i = 0; i < copy.mesh.lines.size(); ++i) {
        const auto edge = static_cast<std::size_t>(model.mesh.lines[i].edges.front());
        const int vertex = model.mesh.edges[edge][0]; // nodes begin with the vertices
        copy.mesh.lines[i].x = model.mesh.lines[i].x + share * moves.nodes(0, vertex);
    }
}

namespace {

bool same_rest(const Board& a, const Board& b) {
    return a.rest_shape->x == b.rest_shape->x && a.rest_shape->value == b.rest_shape->value;
}

// Quads whose terms become others: most values move nodes of a few only. Where the rest shape
// itself changes it is all of them.
std::vector<int> changed_quads(const RestPlaces& of, const ShapeChange& change) {
    const bool all = !same_rest(of.board, *change.below) || !same_rest(of.board, *change.above);
    // The mesh gives way farther and farther off; what is left there is below the differences'
    // rounding.
    constexpr double still = 1e-9; // of the largest move
    const double least = still * of.moves.nodes.cwiseAbs().maxCoeff();
    std::vector<int> quads;
    for (std::size_t quad = 0; quad < of.model.mesh.quads.size(); ++quad) {
        const std::vector<int>& nodes = of.model.numbering.quad_nodes[quad];
        if (all || std::ranges::any_of(nodes, [&](int node) {
                return of.moves.nodes.col(node).cwiseAbs().maxCoeff() > least;
            })) {
            quads.push_back(static_cast<int>(quad));
        }
    }
    return quads;
}

Eigen::VectorXd places_difference(const RestPlaces& of, double size, PlateModel& moved,
                                  int threads) {
    const ShapeChange change = shape_change(of.board, of.line, size);
    const std::vector<int> quads = changed_quads(of, change);
    const auto at = [&](const Board& board, double share) {
        move_nodes(moved, of.model, of.moves, share);
        moved.rest = rest_shape(board);
        return term_sums(moved, quads, of.energy, of.inertia, of.numbers, threads);
    };
    const Eigen::VectorXd above = at(*change.above, change.low + change.width);
    return (above - at(*change.below, change.low)) / change.width;
}

} // namespace

Eigen::VectorXd rest_places_slopes(const RestPlaces& of, int threads) {
    // Above rounding, far below narrow bands (0.2 mm) and lines that are one (0.05 mm).
    constexpr double size = 5e-6;
    PlateModel moved = of.model;
    const Eigen::VectorXd one = places_difference(of, size, moved, threads);
    return (4 * one - places_difference(of, 2 * size, moved, threads)) / 3;
}

MatrixXd by_thickness(const DesignBoard& design, const SectionWeights& weights) {
    MatrixXd all = core_densities(design, weights);
    for (Index i = 0; i < all.rows(); ++i) {
        all.row(i) *= weights.places[static_cast<std::size_t>(i)].area;
    }
    return all;
}

Eigen::VectorXd thickness_change(const SectionWeights& weights, const ShapeChange& change,
                                 const Moves& moves) {
    const Layup<double> below = make_layup<double>(*change.below);
    const Layup<double> above = make_layup<double>(*change.above);
    const double low = change.low;
    const double high = change.width + low;
    Eigen::VectorXd changes(static_cast<Index>(weights.places.size()));
    for (Index i = 0; i < changes.size(); ++i) {
        const Eigen::Vector2d at = weights.places[static_cast<std::size_t>(i)].point();
        const Eigen::Vector2d move = moves.points.col(i);
        changes(i) =
            (core_thickness(above, at + high * move) - core_thickness(below, at + low * move)) /
            change.width;
    }
    return changes;
}

} // namespace vrid
