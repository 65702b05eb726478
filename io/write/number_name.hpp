#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "solver/design/number_id.hpp"

namespace vrid {

/// A number of a board as people write it: "nose-twist", "free-modes mode 1", "EI@-270",
/// "edge.loss_nose", "release.concavity@0".
std::string number_name(const NumberId& number);

/// Whether a number by its name is of a shape out of the press: a position, near zero where things
/// go well, so that no share of it says anything.
bool names_a_shape(const std::string& number);

/// "centre-flex at 60 mm", "stance-twist bent 60 mm" of a bench case and a travel [m].
std::string name_while_bent(const std::string& bench, double travel);

/// "EI@-270" of "EI" and a station [m].
std::string name_at_station(const std::string& what, double station);

/// The station X in a name such as "EI@X", X in mm: "EI@-270" with `what` "EI" gives -0.27 [m];
/// nothing if the name is of another form or X is no number.
std::optional<double> station_in(std::string_view name, std::string_view what);

} // namespace vrid
