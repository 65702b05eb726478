#include "tests/projected_forces.hpp"

#include <algorithm>

#include <Eigen/LU>

namespace vrid::tests {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

VectorXd projected_forces(const TiltedEdge& edge, const SnowForce& snow, const FootLoad& load) {
    const Index m = edge.H0.size();
    const MatrixXd N =
        at_points(edge.line, edge.points, MatrixXd::Identity(edge.line.nodes(), edge.line.nodes()));
    VectorXd L(free_motions);
    const double x = load.share * edge.front_x + (1 - load.share) * edge.rear_x;
    L << -load.force, -load.force * x, -load.force * load.share, 0, 0;
    const MatrixXd R = N * edge.R;
    const MatrixXd soft = edge.K.bottomRightCorner<3, 3>().inverse();
    const MatrixXd G = R.leftCols(2);
    const double rho = 1e-3;
    const MatrixXd M = N * edge.C * N.transpose() +
                       R.rightCols(3) * soft * R.rightCols(3).transpose() + rho * G * G.transpose();
    const VectorXd fixed = edge.H0 + R.rightCols(3) * soft * L.tail(3);
    VectorXd force = VectorXd::Zero(m);
    VectorXd rigid = VectorXd::Zero(2);
    for (int outer = 0; outer < 150; ++outer) {
        const VectorXd base = fixed + G * (rigid + rho * L.head(2));
        for (int sweep = 0; sweep < 300; ++sweep) {
            for (Index i = 0; i < m; ++i) {
                const double rest = base(i) + M.row(i).dot(force) - M(i, i) * force(i);
                double low = 0;
                double high = std::max(0.0, -rest / M(i, i));
                for (int k = 0; k < 45 && high > 0; ++k) {
                    const double middle = (low + high) / 2;
                    const double lack =
                        rest + M(i, i) * middle + snow.depth(middle / edge.points.ds(i));
                    (lack > 0 ? high : low) = middle;
                }
                force(i) = low;
            }
        }
        rigid += rho * (G.transpose() * force + L.head(2));
    }
    return force.cwiseQuotient(edge.points.ds);
}

} // namespace vrid::tests
