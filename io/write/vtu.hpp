#pragma once

#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

namespace vrid {

/// Values at the points of a QuadGrid.
struct PointField {
    std::string name;                    ///< words and unit: "displacement [m]"
    std::vector<std::string> components; ///< a name for each row; one row: may be empty
    Eigen::MatrixXd values;              ///< components x points
};

/// Quadrilaterals, each with its own n x n points (neighbours repeat them: fields may jump). Point
/// e n^2 + j n + i belongs to quad e, is i-th along xi, j-th along eta.
struct QuadGrid {
    int n = 2;                                                   ///< 2..11
    Eigen::Matrix3Xd points;                                     ///< [m]
    std::vector<PointField> fields;                              ///< on points
    std::vector<std::pair<std::string, std::vector<int>>> marks; ///< one number per quad
    /// Texts that belong to the whole file: name, lines.
    std::vector<std::pair<std::string, std::vector<std::string>>> notes;
};

/// The grid as a VTK unstructured grid file (XML, encoded arrays, zlib: the one compression that
/// every common viewer and reading library knows; level 1 is as small as level 6 in half the time).
/// Cells are Lagrange quadrilaterals of degree n - 1, or with `linear` (n - 1)^2 four-node ones
/// each. Points are stored in double, fields in single precision. \throws OutputError if VTK
/// reports one
std::string vtu_text(const QuadGrid& grid, bool linear);

/// One polyline through all points with values on them, as a VTK poly data file (XML, appended,
/// zlib). \throws OutputError if VTK reports one
std::string vtp_text(const Eigen::Matrix3Xd& points, const std::vector<PointField>& fields);

} // namespace vrid
