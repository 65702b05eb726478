#pragma once

#include "mesh/board/rest_shape.hpp"
#include "solver/system/model.hpp"
#include "tests/mesh/grid_mesh.hpp"

namespace vrid::tests {

/// A sheet of 2 mm: inertia 3 kg/m2 about its lower side, I1 = 3e-3, I2 = 4e-6.
inline Section<double> sheet_section() {
    Section<double> section;
    section.A = section.D = Eigen::Matrix3d::Identity();
    section.S = Eigen::Matrix2d::Identity();
    section.thickness = 2e-3;
    section.I0 = 3;
    section.I1 = 3e-3;
    section.I2 = 4e-6;
    return section;
}

/// Such a sheet of uneven quads from x = -0.5 to 0.5, y = -0.2 to 0.1, on a running surface of
/// these heights at x = -0.6, 0 and 0.6, if any.
inline PlateModel grid_model(int degree, const std::vector<double>& heights = {},
                             Interpolation interpolation = Interpolation::smooth) {
    PlateModel model = make_model(grid_mesh({-0.5, -0.3, -0.1, 0.25, 0.5}, {-0.2, -0.05, 0.1}, 1),
                                  degree, sheet_section());
    if (!heights.empty()) {
        const Profile profile{interpolation, {-0.6, 0, 0.6}, heights};
        model.rest = std::make_shared<const RestShape>(RestShape{profile, smooth_slopes(profile)});
    }
    return model;
}

} // namespace vrid::tests
