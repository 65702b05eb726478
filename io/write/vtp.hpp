#pragma once

#include <string>
#include <vector>

#include "io/write/vtu.hpp"

namespace vrid {

/// One polyline through all points with values on them, as a VTK poly data file (XML, appended,
/// zlib). \throws OutputError if VTK reports one
std::string vtp_text(const Eigen::Matrix3Xd& points, const std::vector<PointField>& fields);

} // namespace vrid
