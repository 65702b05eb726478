#include "solver/system/tilted_edge.hpp"

#include <cmath>

#include <Eigen/Cholesky>

namespace vrid {

namespace {

// A node that a foot holds has no compliance; this share of the largest gives it one too small to
// see.
constexpr double least_compliance = 1e-10;

} // namespace

double gradient_v(Side side, double tilt) {
    return side == Side::left ? -std::sin(tilt) : std::sin(tilt);
}

MatrixXd along_vw(Side side, double tilt, const MatrixXd& g) {
    MatrixXd vw(2 * g.rows(), g.cols());
    vw << gradient_v(side, tilt) * g, std::cos(tilt) * g;
    return vw;
}

MatrixXd along_gradient(Side side, double tilt, const MatrixXd& vw) {
    const Index n = vw.rows() / 2;
    return gradient_v(side, tilt) * vw.topRows(n) + std::cos(tilt) * vw.bottomRows(n);
}

TiltedEdge tilt_edge(const EdgeCompliance& edge, const EdgePoints& points, const VectorXd& rest,
                     double tilt) {
    const Index n = edge.line.nodes();
    const double v = gradient_v(edge.line.side, tilt);
    const double w = std::cos(tilt);
    TiltedEdge tilted;
    tilted.line = edge.line;
    tilted.points = points;
    tilted.tilt = tilt;
    tilted.H0 = w * rest + v * points.X.row(1).transpose();
    tilted.C = v * v * edge.C.topLeftCorner(n, n) + w * w * edge.C.bottomRightCorner(n, n) +
               v * w * (edge.C.topRightCorner(n, n) + edge.C.bottomLeftCorner(n, n));
    tilted.added_compliance = least_compliance * tilted.C.diagonal().maxCoeff();
    tilted.C.diagonal().array() += tilted.added_compliance;
    tilted.C_inverse = tilted.C.llt().solve(MatrixXd::Identity(n, n));
    tilted.R =
        v * edge.R.topLeftCorner(n, free_motions) + w * edge.R.bottomLeftCorner(n, free_motions);
    tilted.K = edge.K.topLeftCorner<free_motions, free_motions>();
    tilted.front_x = edge.feet.front_x;
    tilted.front_place = edge.front_place;
    tilted.rear_x = edge.feet.rear_x;
    tilted.rear_place = edge.rear_place;
    return tilted;
}

} // namespace vrid
