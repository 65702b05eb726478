#pragma once

#include <string>
#include <vector>

#include "io/write/vtu.hpp"

// What the module of io/write/vtk offers to the program. VTK draws some thirty libraries with it;
// the module that is linked to it is opened when the first field file is written, not at the
// program's start. Both are built together, so C++ types may pass; only the names must be such that
// they can be looked up. \throws OutputError if VTK reports an error
extern "C" {
void vrid_write_vtu(const vrid::QuadGrid& grid, bool linear, std::string& text);
void vrid_write_vtp(const Eigen::Matrix3Xd& points, const std::vector<vrid::PointField>& fields,
                    std::string& text);
}
