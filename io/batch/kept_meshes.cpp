#include "io/batch/kept_meshes.hpp"

namespace vrid {

Session KeptMeshes::take(const Job& job, const StudyOptions& options) {
    if (of_ != job.mesh) {
        drawn_.reset();
        of_ = job.mesh;
    }
    if (!drawn_) {
        drawn_.emplace(*job.drawn, options, options.cases);
    }
    drawn_->prepared();
    if (job.on_edge) {
        drawn_->edge_prepared();
    }
    return drawn_->on_mesh(job.resolved);
}

} // namespace vrid
