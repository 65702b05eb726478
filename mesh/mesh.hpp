#pragma once

#include <array>
#include <string>
#include <vector>

#include "mesh/board/eigen_names.hpp"

namespace vrid {

/// A mesh line across the whole width of the board at station x.
struct StationLine {
    double x = 0;           ///< [m]
    std::vector<int> edges; ///< mesh edges, from the right (-y) to the left (+y)
};

/// One mesh edge on the outline; the list goes round counter-clockwise.
struct OutlineEdge {
    int quad = 0;
    int side = 0; ///< side k of the quad joins its vertices k and k+1 (counter-clockwise)
};

/// Quadrilaterals that fill the planform. Plain arrays.
///
/// A quad's vertices run counter-clockwise: (xi, eta) = (-1,-1), (1,-1), (1,1), (-1,1).
/// Side k joins vertices k and (k+1) % 4. An edge's direction is from its lower-numbered vertex.
/// Geometry: per quad 2 x (g+1)^2 points [m] at the tensor Gauss-Lobatto points of degree g =
/// geometry_degree, xi fastest. Two quads that share an edge have the same points on it, so any
/// interpolation of lower degree at Lobatto points is conforming too. Curved sides lie on the true
/// outline (and its parallels).
struct Mesh {
    int geometry_degree = 1;
    std::vector<Eigen::Vector2d> vertices;      ///< [m]
    std::vector<std::array<int, 2>> edges;      ///< vertices, lower number first
    std::vector<std::array<int, 4>> quads;      ///< vertices
    std::vector<std::array<int, 4>> quad_edges; ///< edge of each side
    std::vector<Eigen::Matrix2Xd> geometry;     ///< see above
    std::vector<StationLine> lines;             ///< by rising x
    std::vector<OutlineEdge> outline;           ///< counter-clockwise
    double min_scaled_jacobian = 0;             ///< smallest sine of a corner angle, signed
    std::vector<std::string> notes;             ///< what the user should know (lines not followed)
};

} // namespace vrid
