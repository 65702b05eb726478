#include "solver/response/strain_change.hpp"

#include "solver/element/director_shell.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

using Strains = Eigen::Matrix<double, 8, Eigen::Dynamic>;

double energy(const PlateModel& model, int quad, const VectorXd& weight, const Strains& strain) {
    const Strains resultant = element_resultants(quad_sections(model, quad), strain);
    return strain.cwiseProduct(resultant).colwise().sum() * weight;
}

} // namespace

Eigen::VectorXd strain_change(const PlateModel& coarse_model, const Eigen::MatrixXd& coarse,
                              const PlateModel& fine_model, const Eigen::MatrixXd& fine,
                              int threads) {
    const auto quads = static_cast<int>(fine_model.mesh.quads.size());
    // the coarser element at the points of the finer one
    const ReferenceElement below =
        reference_element(coarse_model.reference.p, fine_model.reference.rule.point);
    MatrixXd change(fine.cols(), quads);
    MatrixXd whole(fine.cols(), quads);
    for_each_in_parallel(quads, threads, [&](int quad) {
        const ElementTables tables = quad_tables(fine_model, quad);
        const ElementTables tables_below =
            element_tables(below, element_nodes(coarse_model, quad), coarse_model.rest.get());
        const MatrixXd part = quad_part(fine_model, quad, fine);
        const MatrixXd part_below = quad_part(coarse_model, quad, coarse);
        for (Index c = 0; c < fine.cols(); ++c) {
            const Strains strain = element_strains(fine_model.reference, tables, part.col(c));
            const Strains lower = element_strains(below, tables_below, part_below.col(c));
            whole(c, quad) = energy(fine_model, quad, tables.weight, strain);
            change(c, quad) = energy(fine_model, quad, tables.weight, strain - lower);
        }
    });
    const VectorXd sum = whole.rowwise().sum();
    return (sum.array() > 0).select(change.rowwise().sum().array() / sum.array(), 0);
}

} // namespace vrid
