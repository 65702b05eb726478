#include "solver/strength_residual.hpp"

#include <algorithm>

#include "solver/prepared.hpp"
#include "solver/system/eigenvalues.hpp"

namespace vrid {

CooledStress::CooledStress(const Board& board, const StudyResult& study, const std::string& bench,
                           std::size_t degree)
    : layup_(make_layup<double>(board, {}, creeps(board) ? Pace::slow : Pace::quick)) {
    const auto found = std::find_if(study.cases.begin(), study.cases.end(),
                                    [&](const CaseResult& one) { return one.name == bench; });
    celsius_ = found->cooled->celsius;
    const SolvedModel& solved = *study.solved[degree];
    const auto which = static_cast<std::size_t>(found - study.cases.begin());
    strain_ = strain_field(
        solved.model,
        straining_part(solved.model, study.prepared->trees[degree], solved.motion[which]).col(0));
    held_.assign(solved.model.mesh.quads.size(), 0);
}

PointResidual CooledStress::at(const StackKey& key, const Disc& disc,
                               const PointLaminate& point) const {
    PointResidual residual;
    if (const auto mean = mean_strain(disc, strain_, held_)) {
        residual.e = mean->head<3>();
        residual.k = mean->segment<3>(3);
    }
    for (const Lamina<double>& one :
         stack_laminae(layup_, key, core_thickness(layup_, disc.centre))) {
        if (one.thickness > 0) { // as in a PointLaminate
            const double quick = point.laminae[residual.free.size()].Qbar(0, 0);
            residual.free.push_back(free_strain(one, celsius_));
            residual.stiffness.push_back(one.Qbar(0, 0) / quick);
        }
    }
    return residual;
}

} // namespace vrid
