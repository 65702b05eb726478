#include "io/batch/shared_meshes.hpp"

namespace vrid {

SharedMeshes::SharedMeshes(const std::vector<Job>& jobs, const std::vector<std::size_t>& todo) {
    for (const std::size_t i : todo) {
        ++entries_[jobs[i].mesh].jobs;
    }
}

EdgeOptions edge_options(const StudyOptions& options) {
    EdgeOptions edge;
    edge.degree = options.degree;
    edge.max_size = options.max_size;
    return edge;
}

JobMeshes SharedMeshes::take(const Job& job, const StudyOptions& options) {
    Entry* entry = nullptr;
    {
        const std::lock_guard<std::mutex> lock(guard_);
        entry = &entries_.at(job.mesh); // stays where it is, and as long as this job is to come
    }
    const std::lock_guard<std::mutex> lock(entry->making);
    JobMeshes& meshes = entry->meshes;
    if (!meshes.study) {
        meshes.study = std::make_shared<const PreparedStudy>(prepare_study(*job.drawn, options));
    }
    if (job.on_edge && !meshes.edge) {
        meshes.edge =
            std::make_shared<const PreparedEdge>(prepare_edge(*job.drawn, edge_options(options)));
    }
    return meshes;
}

void SharedMeshes::release(const Job& job) {
    const std::lock_guard<std::mutex> lock(guard_);
    const auto entry = entries_.find(job.mesh);
    if (--entry->second.jobs == 0) {
        entries_.erase(entry);
    }
}

} // namespace vrid
