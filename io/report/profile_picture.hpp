#pragma once

#include <string>
#include <vector>

#include "io/report/report.hpp"

namespace vrid {

/// Heights along the board, 20 times as high as long, the first curve the mould; what rises beyond
/// the picture is cut. \param contact stations with a thin line [mm] \param id unique on the page
std::string profile_picture(const std::vector<Curve>& curves, const std::vector<double>& contact,
                            const std::string& id);

} // namespace vrid
