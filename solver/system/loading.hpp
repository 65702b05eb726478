#pragma once

#include <vector>

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include "solver/system/model.hpp"

namespace vrid {

/// Components of a node's unknowns.
enum Component : int { comp_u, comp_v, comp_w, comp_bx, comp_by };

/// The number of a node's unknown.
inline Eigen::Index unknown(int node, Component component) {
    return Eigen::Index(unknowns_per_node) * node + component;
}

/// Supports, prescribed motion and forces of one load case.
struct Loading {
    std::vector<char> fixed; ///< per unknown: its motion is prescribed
    Eigen::VectorXd motion;  ///< prescribed values, 0 where free [m, rad]
    Eigen::VectorXd force;   ///< on free unknowns [N, N m]
};

/// Sets the rows of unknowns that are fixed to zero.
void clear_fixed(const std::vector<char>& fixed, Eigen::Ref<Eigen::MatrixXd> rows);

/// Nothing held, nothing loaded.
Loading free_loading(const PlateModel& model);

/// Nodes on the mesh line at station x [m], from right to left. \throws SolveError without one.
std::vector<int> line_nodes(const PlateModel& model, double x);
/// Nodes of all quads between two stations, both lines included.
std::vector<int> strip_nodes(const PlateModel& model, double x_from, double x_to);

/// Prescribes one component of some nodes.
void prescribe(Loading& loading, const std::vector<int>& nodes, Component component,
               double value = 0);
/// The rest shape's frame at a node. A unit turn about the long axis is by = -C.
RestFrame frame_at(const PlateModel& model, int node);
/// Its cosine.
double cosine_at(const PlateModel& model, int node);

/// Prescribes w = turn * y: a rigid bar or foot turned about the long axis.
void prescribe_turn(Loading& loading, const PlateModel& model, const std::vector<int>& nodes,
                    double turn);
/// Holds in-plane rigid motion at two nodes of the long axis: no stress comes of it.
void hold_in_plane(Loading& loading, const PlateModel& model, double x_tail, double x_nose);
/// Total force [N] along w, even per unit of width, on the line at station x.
void add_line_force(Loading& loading, const PlateModel& model, double x, double force);

/// Width mean of component c on a mesh line, and the least-squares slope of w by y.
double line_mean(const PlateModel& model, const StationLine& line, const Eigen::VectorXd& u,
                 Component component);
double line_slope(const PlateModel& model, const StationLine& line, const Eigen::VectorXd& u);
/// The loads whose work with a motion is line_slope, of the mesh line at station x [m]: one column
/// of (unknown, value). \throws SolveError without a line
std::vector<Eigen::Triplet<double>> line_slope_load(const PlateModel& model, double x, int column);

} // namespace vrid
