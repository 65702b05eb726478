#include "io/batch/shared_meshes.hpp"

namespace vrid {

SharedMeshes::SharedMeshes(const std::vector<Job>& jobs, const std::vector<std::size_t>& todo) {
    for (const std::size_t i : todo) {
        ++entries_[jobs[i].mesh].jobs;
    }
}

std::shared_ptr<const PreparedStudy> SharedMeshes::take(const Job& job,
                                                        const StudyOptions& options) {
    Entry* entry = nullptr;
    {
        const std::lock_guard<std::mutex> lock(guard_);
        entry = &entries_.at(job.mesh); // stays where it is, and as long as this job is to come
    }
    const std::lock_guard<std::mutex> lock(entry->making);
    if (!entry->prepared) {
        entry->prepared = std::make_shared<const PreparedStudy>(prepare_study(*job.drawn, options));
    }
    return entry->prepared;
}

void SharedMeshes::release(const Job& job) {
    const std::lock_guard<std::mutex> lock(guard_);
    const auto entry = entries_.find(job.mesh);
    if (--entry->second.jobs == 0) {
        entries_.erase(entry);
    }
}

} // namespace vrid
