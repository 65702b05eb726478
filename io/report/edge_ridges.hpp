#pragma once

#include <string>
#include <vector>

#include "io/report/axis.hpp"
#include "io/report/report.hpp"

namespace vrid {

/// The conditions of one picture: one stand, one snow. One band an angle, one curve a force.
struct Ridges {
    std::string heading;
    std::vector<double> angles, forces; ///< [deg], [N]
    std::vector<const EdgeState*> states;
    /// Null: there is none.
    [[nodiscard]] const EdgeState* at(double angle, double force) const;
};

/// Stations of the board on the picture.
struct EdgePlaces {
    Axis x;
    std::vector<double> contact;                    ///< stations [mm]
    std::vector<std::vector<double>> feet;          ///< x0 y0 x1 y1 [mm]
    std::vector<std::pair<double, double>> outline; ///< [mm]; may be empty
};

std::string force_name(double force); ///< "800 N"

/// Force along the edge, a filled curve each. Empty if no edge carries any.
std::string force_picture(const Ridges& ridges, const EdgePlaces& places, const std::string& id);

/// The board from above with the heaviest load's force standing on its edge, a curve an angle.
/// Empty without an outline or a force.
std::string edge_plan_picture(const Ridges& ridges, const EdgePlaces& places,
                              const std::string& id);

/// The local edging angle round the board's, thick where the edge holds.
std::string angle_picture(const Ridges& ridges, const EdgePlaces& places, const std::string& id);

} // namespace vrid
