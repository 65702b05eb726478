#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "io/batch/job.hpp"
#include "solver/design/session.hpp"

namespace vrid {

/// Meshes that several jobs share: prepared by the first that asks, gone after the last.
class SharedMeshes {
  public:
    /// \param drawn the boards as drawn, by the jobs' mesh texts
    SharedMeshes(const std::vector<Job>& jobs, const std::vector<std::size_t>& todo);
    /// The job's board on its mesh, which is prepared; also for the edge if it stands on that.
    /// \throws as prepare_study and prepare_edge; the next job tries again
    Session take(const Job& job, const StudyOptions& options);
    void release(const Job& job);

  private:
    struct Entry {
        std::mutex making;
        std::optional<Session> drawn; ///< the board as drawn
        std::size_t jobs = 0;         ///< still to come
    };
    std::mutex guard_;
    std::map<std::string, Entry> entries_;
};

} // namespace vrid
