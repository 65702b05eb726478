#include "solver/response/mass_only.hpp"

#include <cmath>

namespace vrid {

void add_mass_only(const Board& board, PlateModel& model) {
    model.inertia.row(0).array() += board.mass_only.resin;
    if (!board.stance || board.mass_only.inserts_per_foot == 0) {
        return;
    }
    const Stance& stance = *board.stance;
    const double inserts = board.mass_only.inserts_per_foot * board.mass_only.insert_mass /
                           (stance.foot_length * stance.foot_width); // [kg/m2]
    const int m = model.reference.m;
    const Eigen::MatrixXd to_points = geometry_to_points(model.mesh, model.reference.rule.point);
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const Eigen::Matrix2Xd at = quad_points(model.mesh, quad, to_points);
        for (Eigen::Index c = 0; c < m; ++c) {
            for (const double foot : {stance.rear(), stance.front()}) {
                if (std::abs(at(0, c) - foot) < stance.foot_length / 2 &&
                    std::abs(at(1, c)) < stance.foot_width / 2) {
                    model.inertia(0, Eigen::Index(quad) * m + c) += inserts;
                }
            }
        }
    }
}

} // namespace vrid
