#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "mesh/lines.hpp"

namespace vrid {

/// The lines of two boards that differ by a small change of one value, below and above the mesh's.
struct LineChange {
    const Board& below;
    const Board& above;
    const MeshLines& lines_below;
    const MeshLines& lines_above;
    double width = 0; ///< of the value, from below to above
};

/// Signed way along a normal of a straight line from a point to the line [m].
double ahead(const StraightLine& line, const Eigen::Vector2d& at, const Eigen::Vector2d& normal);

/// Speeds of a board's mesh lines by a change: each line is found again among those below and above
/// by its rank, direction and place; one that is not found stays.
class LineSpeeds {
  public:
    LineSpeeds(const LineChange& change, const MeshLines& lines);

    /// Of a straight line along its normal at a point of it.
    [[nodiscard]] double straight(std::size_t line, const Eigen::Vector2d& at,
                                  const Eigen::Vector2d& normal) const;
    /// Of a parallel's distance from the outline.
    [[nodiscard]] double parallel(std::size_t line) const { return parallel_[line]; }
    /// Of a point of the outline at a fixed parameter of its piece.
    [[nodiscard]] Eigen::Vector2d outline(const OutlinePlace& place) const;

  private:
    const LineChange& change_;
    std::vector<const StraightLine*> below_, above_; // per straight line; null: it stays
    std::vector<double> parallel_;
};

} // namespace vrid
