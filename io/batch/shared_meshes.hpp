#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "io/batch/job.hpp"

namespace vrid {

/// A job's meshes. `edge` is null for a job that does not stand on its edge.
struct JobMeshes {
    std::shared_ptr<const PreparedStudy> study;
    std::shared_ptr<const PreparedEdge> edge;
};

/// The edge's part of a batch's settings.
EdgeOptions edge_options(const StudyOptions& options);

/// Meshes that several jobs share: made by the first that asks, gone after the last.
class SharedMeshes {
  public:
    /// \param drawn the boards as drawn, by the jobs' mesh texts
    SharedMeshes(const std::vector<Job>& jobs, const std::vector<std::size_t>& todo);
    /// \throws as prepare_study and prepare_edge; the next job tries again
    JobMeshes take(const Job& job, const StudyOptions& options);
    void release(const Job& job);

  private:
    struct Entry {
        std::mutex making;
        JobMeshes meshes;
        std::size_t jobs = 0; ///< still to come
    };
    std::mutex guard_;
    std::map<std::string, Entry> entries_;
};

} // namespace vrid
