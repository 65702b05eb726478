#pragma once

#include <string>
#include <vector>

#include "io/report/report.hpp"
#include "io/report/strength_pictures.hpp"

namespace vrid {

/// The page with where the layups give first. \param strength one a row of the report, without
/// cases where there is nothing to show; shorter lists leave the rest without
std::string report_html(const Report& report, const std::vector<StrengthFindings>& strength);

} // namespace vrid
