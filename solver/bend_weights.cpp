#include "solver/bend_weights.hpp"

namespace vrid {

void add_strain_work(const LargeMotionModel& bent, const StrainFields& left,
                     const StrainFields& right, double factor, NumberWeights& weights) {
    const Index m = bent.model.reference.m;
    if (weights.size() == 0) {
        weights = VectorXd::Zero(section_terms * m * static_cast<Index>(left.size()));
    }
    for (std::size_t quad = 0; quad < left.size(); ++quad) {
        for (Index c = 0; c < m; ++c) {
            const Index row = section_terms * (static_cast<Index>(quad) * m + c);
            weights.segment<section_terms>(row) +=
                factor * bent.tables[quad].weight(c) *
                energy_weights(left[quad].col(c), right[quad].col(c));
        }
    }
}

BendWeights::BendWeights(const LargeMotionModel& bent, const BendPath& path, int threads)
    : bent_(bent), path_(path), threads_(threads), now_(bent_strains(bent, path.motion(), threads)),
      by_load_(strain_changes(bent, path.motion(), path.by_unit_load(), threads)) {}

NumberWeights BendWeights::force() const {
    NumberWeights weights;
    add(by_load_, now_, path_.sign() * path_.tangent(), weights);
    return weights;
}

NumberWeights BendWeights::motion(const VectorXd& g) const {
    const VectorXd y = path_.answer(g);
    NumberWeights weights;
    add(by_load_, now_, path_.tangent() * g.dot(path_.by_unit_load()), weights);
    add(strain_changes(bent_, path_.motion(), y, threads_), now_, -1, weights);
    return weights;
}

NumberWeights BendWeights::tangent() const {
    const double k = path_.tangent();
    const VectorXd none = VectorXd::Zero(path_.motion().size());
    return k * k * stiffness(path_.by_unit_load(), none);
}

// psi.K psi with psi.K = 0 wherever psi is free: what dK and the change of the state add.
NumberWeights BendWeights::stiffness(const VectorXd& psi, const VectorXd& owed) const {
    const BentLine line = bent_line(bent_, path_.motion(), psi, threads_);
    NumberWeights weights = motion(line.forces + owed);
    add(line.first, line.first, 1, weights);
    add(line.second, now_, 1, weights);
    return weights;
}

} // namespace vrid
