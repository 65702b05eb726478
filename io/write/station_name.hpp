#pragma once

#include <optional>
#include <string_view>

namespace vrid {

/// The station X in a name such as "EI@X", X in mm: "EI@-270" with `what` "EI" gives -0.27 [m];
/// nothing if the name is of another form or X is no number.
std::optional<double> station_in(std::string_view name, std::string_view what);

} // namespace vrid
