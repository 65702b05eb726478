#include "solver/cooling/stretch.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <Eigen/LU>

#include "mesh/board/surface.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

// Curvature of the mould along the board, up in the middle counted positive as k_x is [1/m].
// Of what lies between the contact stations: the tips' kick begins there and is not meant.
// A mean over a share of that length: the spline's second derivative jumps at its stations.
double mould_curvature(const Board& board, const std::optional<RestShape>& rest, double at_x) {
    if (!rest) {
        return 0;
    }
    const double step = (nose_contact(board) - tail_contact(board)) / 50;
    const double x = std::clamp(at_x, tail_contact(board) + step, nose_contact(board) - step);
    return -(rest->z(x + step) - 2 * rest->z(x) + rest->z(x - step)) / (step * step);
}

// What stretches at a station, by the square of a curvature [m2]: that along for the overstated
// curvature across, and the other way round.
struct Stretching {
    double of_across = 0, of_along = 0;
};

Stretching stretching(const Section<double>& s, double width) {
    const Eigen::Matrix3d Ainv = s.A.inverse();
    const Eigen::Matrix3d D = s.D - s.B * Ainv * s.B;
    const double stretch = std::pow(width, 4) / (720 * Ainv(0, 0));
    return {stretch / D(1, 1), stretch / D(0, 0)};
}

} // namespace

std::vector<StretchShare> stretch_shares(const Board& board, SectionCache& sections,
                                         const MeshPlaces& places, const Eigen::MatrixXd& motions) {
    constexpr int stations = 25;
    const std::optional<RestShape> rest =
        board.rest_shape ? std::optional(surface_of(*board.rest_shape)) : std::nullopt;
    std::vector<StretchShare> worst(static_cast<std::size_t>(motions.cols()));
    for (int i = 0; i <= stations; ++i) {
        const double share = static_cast<double>(i) / stations;
        const double x = tail_contact(board) * (1 - share) + nose_contact(board) * share;
        const auto y = y_extent(board.planform, x);
        if (!y) {
            continue;
        }
        const Eigen::Vector2d point(x, ((*y)[0] + (*y)[1]) / 2);
        const Eigen::MatrixXd strain = strains_at(places.model(), places.at(point), motions);
        const double mould = mould_curvature(board, rest, x);
        const Stretching here = stretching(sections.at(point), (*y)[1] - (*y)[0]);
        for (std::size_t c = 0; c < worst.size(); ++c) {
            const auto column = static_cast<Eigen::Index>(c);
            const double along = strain(3, column) + mould;
            const double across = strain(4, column);
            const double of_across = here.of_across * along * along;
            const double of_along = here.of_along * across * across;
            if (of_across > worst[c].across) {
                worst[c].across = of_across;
                worst[c].across_station = x;
            }
            if (of_along > worst[c].along) {
                worst[c].along = of_along;
                worst[c].along_station = x;
            }
        }
    }
    return worst;
}

} // namespace vrid
