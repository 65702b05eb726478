#pragma once

#include <map>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/planform.hpp"
#include "mesh/board/same_place.hpp"
#include "mesh/curve.hpp"
#include "mesh/lines.hpp"

namespace vrid {

/// The outline as one loop.
Loop outline_loop(const Planform& planform);

/// The places inside the board at the given distance from the outline: closed curves, none if the
/// board is nowhere that wide. Where the plain offset would cross itself it is cut off, where the
/// outline turns inwards it goes round the corner. Pieces shorter than 1 mm are left out.
std::vector<Loop> parallel_loops(const Planform& planform, const OutlineDistance& outline,
                                 double distance);

constexpr double same_vertex = same_line;   ///< vertices nearer than this are one [m]
constexpr double on_line = 0.4 * same_line; ///< a point this near to a line is on it [m]

/// Where a line meets another: arc length from its start [m], and the vertex there.
struct Stop {
    double s;
    int vertex;
    bool corner = false; ///< of a loop: its s wins over others of the same vertex
    double miss = 0;     ///< of a loop at s from the vertex [m]; the smallest wins
};

/// Vertices of a line graph: points nearer than same_vertex are one.
class VertexGrid {
  public:
    int at(const Eigen::Vector2d& p); ///< the vertex there, made if there is none

    std::vector<Eigen::Vector2d> points; ///< [m]

  private:
    std::map<std::pair<long, long>, std::vector<int>> grid_;
};

/// The stops of every line, not sorted, some named twice.
struct LineStops {
    std::vector<StraightLine> straight; ///< those asked for, and one across each loop none crosses
    VertexGrid vertices;
    std::vector<std::vector<Stop>> on_loops, on_straight;
};

LineStops line_stops(const std::vector<Loop>& loops, const MeshLines& lines);

} // namespace vrid
