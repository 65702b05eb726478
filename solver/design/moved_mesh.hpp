#pragma once

#include <vector>

#include "solver/design/shape_change.hpp"
#include "solver/prepared.hpp"

namespace vrid {

/// A board's mesh that follows small changes of values which move its lines: same quads, same order
/// of elimination.
class MeshMover {
  public:
    /// \param prepared of the board \param stations across that its cases need
    MeshMover(SharedPrepared prepared, const Board& board, StationsOf stations);

    /// The mesh of the board below (`share` = change.low) or above.
    [[nodiscard]] SharedPrepared moved(const ShapeChange& change, double share) const;

  private:
    SharedPrepared prepared_;
    StationsOf stations_;
    MeshMotion motion_;
};

/// The mesh of `path.front()` led along to the last of the boards, which follow each other by small
/// changes; null where it gets bad: a corner's sine below 0.6 of the smallest at the start, or a
/// side shorter than 0.4 of what it was.
SharedPrepared led_mesh(const SharedPrepared& prepared, const std::vector<const Board*>& path,
                        const StationsOf& stations);

} // namespace vrid
