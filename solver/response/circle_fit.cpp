#include "solver/response/circle_fit.hpp"

#include <algorithm>
#include <cmath>

#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

using Eigen::Vector3d;

// A circle by the point rho n that is nearest to the origin, its normal n = (-sin, cos) of the
// angle there, and its curvature: no parameter runs away when the line is straight.
struct Circle {
    double curvature = 0, angle = 0, rho = 0;
};

struct Distance {
    double value = 0;
    Vector3d slope; // by curvature, angle, rho
};

// dist = |x - c| - R = 2 Q / (1 + sqrt(1 + 2 k Q)), Q = k |x'|^2 / 2 - x'.n, x' = x - rho n.
Distance distance(const Circle& circle, const Eigen::Vector2d& x) {
    const Eigen::Vector2d n(-std::sin(circle.angle), std::cos(circle.angle));
    const Eigen::Vector2d along(std::cos(circle.angle), std::sin(circle.angle)); // -dn/dangle
    const Eigen::Vector2d from = x - circle.rho * n;
    const double k = circle.curvature;
    const double Q = k * from.squaredNorm() / 2 - from.dot(n);
    const double root = std::sqrt(std::max(1 + 2 * k * Q, 1e-12));
    const double value = 2 * Q / (1 + root);
    const double by_Q = 1 / root;
    const double by_k = -value * value / (2 * root); // at fixed Q
    const double Q_angle = k * circle.rho * from.dot(along) + from.dot(along);
    const double Q_rho = -k * from.dot(n) + 1;
    return {value, Vector3d(by_Q * from.squaredNorm() / 2 + by_k, by_Q * Q_angle, by_Q * Q_rho)};
}

} // namespace

double fitted_curvature(const Eigen::Matrix2Xd& points, const Eigen::VectorXd& weight) {
    const Eigen::Vector2d middle = points * weight / weight.sum();
    const double length = points.row(0).maxCoeff() - points.row(0).minCoeff();
    Circle circle;
    for (int round = 0; round < 30; ++round) {
        Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
        Vector3d right = Vector3d::Zero();
        const Vector3d scale(1 / length, 1, length); // all columns of one size
        for (Eigen::Index i = 0; i < points.cols(); ++i) {
            const Distance at = distance(circle, points.col(i) - middle);
            const Vector3d row = at.slope.cwiseProduct(scale);
            normal += weight(i) * row * row.transpose();
            right -= weight(i) * at.value * row;
        }
        const Vector3d step = scale.cwiseProduct(Vector3d(solve_symmetric(normal, right)));
        circle.curvature += step(0);
        circle.angle += step(1);
        circle.rho += step(2);
        if (std::abs(step(0)) < 1e-12 / length) {
            break;
        }
    }
    return circle.curvature;
}

} // namespace vrid
