#include "solver/cooling/cooling.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

#include "solver/cases/cases.hpp"
#include "solver/cooling/mesh_place.hpp"

namespace vrid {

namespace {

// Curvature of the mould along the board, up in the middle counted positive as k_x is [1/m].
// Of what lies between the contact stations: the tips' kick begins there and is not meant.
double mould_curvature(const Board& board, const std::vector<double>& slopes, double at_x) {
    constexpr double step = 0.02; // [m]: the spline's second derivative jumps at its stations
    const double from = tail_contact(board) + step;
    const double to = nose_contact(board) - step;
    if (!board.rest_shape || from >= to) {
        return 0;
    }
    const double x = std::clamp(at_x, from, to);
    const auto z = [&](double at) { return value_at(*board.rest_shape, slopes, at); };
    return -(z(x + step) - 2 * z(x) + z(x - step)) / (step * step);
}

} // namespace

StretchShare stretch_share(const Board& board, const Layup<double>& layup, const PlateModel& model,
                           const Eigen::VectorXd& motion) {
    constexpr int stations = 25;
    const std::vector<double> slopes =
        board.rest_shape ? smooth_slopes(board.rest_shape->x, board.rest_shape->value)
                         : std::vector<double>{};
    const MeshPlaces places(model);
    SectionCache sections(layup);
    StretchShare worst;
    for (int i = 0; i <= stations; ++i) {
        const double share = static_cast<double>(i) / stations;
        const double x = tail_contact(board) * (1 - share) + nose_contact(board) * share;
        const auto y = y_extent(board.planform, x);
        if (!y) {
            continue;
        }
        const double b = (*y)[1] - (*y)[0];
        const Eigen::Vector2d point(x, ((*y)[0] + (*y)[1]) / 2);
        const auto strain = strain_at(model, places.at(point), motion);
        const double along = strain(3) + mould_curvature(board, slopes, x);
        const double across = strain(4);
        const Section<double>& s = sections.at(point);
        const Eigen::Matrix3d Ainv = s.A.inverse();
        const Eigen::Matrix3d D = s.D - s.B * Ainv * s.B;
        const double stretch = std::pow(b, 4) / (720 * Ainv(0, 0));
        const double of_across = stretch * along * along / D(1, 1);
        const double of_along = stretch * across * across / D(0, 0);
        if (of_across > worst.across) {
            worst.across = of_across;
            worst.across_station = x;
        }
        if (of_along > worst.along) {
            worst.along = of_along;
            worst.along_station = x;
        }
    }
    return worst;
}

} // namespace vrid
