#include "io/batch/shared_meshes.hpp"

namespace vrid {

SharedMeshes::SharedMeshes(const std::vector<Job>& jobs, const std::vector<std::size_t>& todo) {
    for (const std::size_t i : todo) {
        ++entries_[jobs[i].mesh].jobs;
    }
}

Session SharedMeshes::take(const Job& job, const StudyOptions& options) {
    Entry* entry = nullptr;
    {
        const std::lock_guard<std::mutex> lock(guard_);
        entry = &entries_.at(job.mesh); // stays where it is, and as long as this job is to come
    }
    const std::lock_guard<std::mutex> lock(entry->making);
    if (!entry->drawn) {
        entry->drawn.emplace(*job.drawn, options, options.cases);
    }
    entry->drawn->prepared();
    if (job.on_edge) {
        entry->drawn->edge_prepared();
    }
    return entry->drawn->on_mesh(job.resolved);
}

void SharedMeshes::release(const Job& job) {
    const std::lock_guard<std::mutex> lock(guard_);
    const auto entry = entries_.find(job.mesh);
    if (--entry->second.jobs == 0) {
        entries_.erase(entry);
    }
}

} // namespace vrid
