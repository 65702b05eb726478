#pragma once

#include <vector>

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include "solver/system/model.hpp"
#include "solver/system/snow_force.hpp"

namespace vrid {

/// A mesh edge of the running edge, run from tail to nose.
struct EdgeSegment {
    int quad = 0;
    int side = 0;          ///< of the quad, as in OutlineEdge
    std::vector<int> node; ///< p + 1 places in EdgeLine::node
};

/// The running edge of one side: its nodes from tail to nose, and the segments between them.
struct EdgeLine {
    Side side = Side::left;
    int degree = 1;
    std::vector<int> node; ///< node numbers of the model
    Eigen::Matrix2Xd X;    ///< 2 x nodes [m]
    std::vector<EdgeSegment> segments;
    std::vector<double> chords; ///< stations at which the turn of the whole section is told too [m]
    [[nodiscard]] Eigen::Index nodes() const { return X.cols(); }
};

/// The outline from the tail tip to the nose tip on one side. Parts that run straight across the
/// board (the ends of a coupon) and the inside of a swallow tail are no running edge.
EdgeLine edge_line(const PlateModel& model, Side side);

/// Points on the edge line at the same places of every segment, segment by segment.
struct EdgePoints {
    Eigen::MatrixXd N;  ///< places x (p+1): values of the segment's nodes there
    Eigen::Matrix2Xd X; ///< 2 x points [m]
    Eigen::VectorXd ds; ///< rule weight times length of the tangent [m]; sums to the edge's length
    [[nodiscard]] Eigen::Index places() const { return N.rows(); }
};

/// \param rule places in -1 (tail) .. 1 (nose) of every segment, and weights
EdgePoints edge_points(const EdgeLine& line, const Rule& rule);

/// Values of the line's nodes (rows) at the points.
Eigen::MatrixXd at_points(const EdgeLine& line, const EdgePoints& points,
                          const Eigen::MatrixXd& nodal);
/// The transpose of at_points: nodal values from one value per point.
Eigen::VectorXd to_nodes(const EdgeLine& line, const EdgePoints& points,
                         const Eigen::VectorXd& values);

/// What tells dw/dx (first) and dw/dy of a board's motion at the p + 1 nodes of every segment, each
/// from its own quad, and last the turn of each chord (the best line's slope over the full width):
/// unknowns x (2 x segments (p+1) + chords). Transposed times a motion: slopes [rad].
Eigen::SparseMatrix<double> edge_slope_loads(const PlateModel& model, const EdgeLine& line);

} // namespace vrid
