#include "solver/strength_residual.hpp"

#include <algorithm>

#include "solver/prepared.hpp"
#include "solver/system/eigenvalues.hpp"

namespace vrid {

CooledStress::CooledStress(const Board& board, const StudyResult& study, const std::string& bench,
                           std::size_t degree)
    : layup_(make_layup<double>(board, {}, creeps(board) ? Pace::slow : Pace::quick)) {
    const auto found = std::ranges::find(study.cases, bench, &CaseResult::name);
    celsius_ = found->cooled->celsius;
    const SolvedModel& solved = *study.solved[degree];
    const auto which = static_cast<std::size_t>(found - study.cases.begin());
    take(solved.model, study.prepared->trees[degree], solved.motion[which].col(0));
}

CooledStress::CooledStress(const Board& board, const StudyResult& study, const CaseResult& cooled)
    : layup_(make_layup<double>(board, {}, creeps(board) ? Pace::slow : Pace::quick)),
      celsius_(cooled.cooled->celsius) {
    SectionCache sections(layup_);
    PlateModel model = make_model(study.mesh, study.numbering.degree, sections);
    model.rest = study.rest;
    take(model, study.prepared->trees[1], cooled.motion);
}

void CooledStress::take(const PlateModel& model, const EliminationTree& tree,
                        const Eigen::VectorXd& motion) {
    motion_ = straining_part(model, tree, motion).col(0);
    strain_ = strain_field(model, motion_);
    held_.assign(model.mesh.quads.size(), 0);
}

PointResidual CooledStress::at(const StackKey& key, const Disc& disc,
                               const PointLaminate& point) const {
    const auto mean = mean_strain(disc, strain_, held_);
    return at_point(
        key, disc.centre, point,
        mean.value_or(Eigen::Matrix<double, 8, 1>(Eigen::Matrix<double, 8, 1>::Zero())));
}

PointResidual CooledStress::at_point(const StackKey& key, const Eigen::Vector2d& place,
                                     const PointLaminate& point,
                                     const Eigen::Matrix<double, 8, 1>& strain) const {
    PointResidual residual;
    residual.e = strain.head<3>();
    residual.k = strain.segment<3>(3);
    for (const Lamina<double>& one : stack_laminae(layup_, key, core_thickness(layup_, place))) {
        if (one.thickness > 0) { // as in a PointLaminate
            const double quick = point.laminae[residual.free.size()].Qbar(0, 0);
            residual.free.push_back(free_strain(one, celsius_));
            residual.stiffness.push_back(one.Qbar(0, 0) / quick);
        }
    }
    return residual;
}

} // namespace vrid
