#pragma once

#include <Eigen/Core>

#include "mesh/mesh_motion.hpp"
#include "solver/design/shape_change.hpp"
#include "solver/response/section_weights.hpp"
#include "solver/response/shape_gradient.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// A velocity of the mesh where a model needs it.
struct Moves {
    Eigen::Matrix2Xd nodes;  ///< as Numbering::position
    Eigen::Matrix2Xd points; ///< integration points, quad by quad
};

Moves moves_of(const PlateModel& model, const MeshVelocity& velocity);

/// What a loading needs of a model: the sections are left out.
PlateModel bare_copy(const PlateModel& model);

/// Sets the places of the copy's nodes and lines to the model's, moved by a share.
void move_nodes(PlateModel& copy, const PlateModel& model, const Moves& moves, double share);

/// Numbers whose energy terms are followed along one value's move of a board on its rest shape.
struct RestPlaces {
    const Board& board;
    const LineValue& line;
    const PlateModel& model; ///< of the board
    const Moves& moves;
    const std::vector<EnergyTerm>&energy, &inertia;
    Eigen::Index numbers = 0;
};
/// What a value does to the terms by the nodes' places and by the rest shape at the places they
/// come to, the sections at the points kept: central differences of two steps, of fourth order.
Eigen::VectorXd rest_places_slopes(const RestPlaces& of, int threads);

/// What numbers owe to the core's thickness at the places of weights: places x numbers, SI per m.
Eigen::MatrixXd by_thickness(const DesignBoard& design, const SectionWeights& weights);

/// By how much the core at the places that move gets thicker, per unit of the value: it stays where
/// the file says, its stations may move.
Eigen::VectorXd thickness_change(const SectionWeights& weights, const ShapeChange& change,
                                 const Moves& moves);

} // namespace vrid
