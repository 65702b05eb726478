#pragma once

#include <optional>
#include <string>

#include "io/batch/job.hpp"
#include "solver/design/session.hpp"

namespace vrid {

/// The meshes of the last job, for the next: a board's variants follow each other.
class KeptMeshes {
  public:
    /// The job's board on its mesh, which is prepared; also for the edge if it stands on that.
    /// \throws as Session::prepared and Session::edge_prepared; the next job tries again
    Session take(const Job& job, const StudyOptions& options);

  private:
    std::string of_;               ///< Job::mesh
    std::optional<Session> drawn_; ///< the board as drawn
};

} // namespace vrid
