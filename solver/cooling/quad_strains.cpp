#include "solver/cooling/quad_strains.hpp"

#include "solver/element/director_shell.hpp"
#include "solver/system/quad_motion.hpp"

namespace vrid {

using Eigen::Index;

QuadStrains quad_strains(const PlateModel& model, const ReferenceElement& at, int quad,
                         const Eigen::VectorXd& u) {
    const ElementTables tables = element_tables(at, element_nodes(model, quad), model.rest.get());
    return element_strains(at, tables, quad_part(model, quad, u));
}

QuadStrains quad_strains(const PlateModel& model, const ElementTables& tables, int quad,
                         const Eigen::VectorXd& u) {
    return element_strains(model.reference, tables, quad_part(model, quad, u));
}

void add_quad_forces(const PlateModel& model, int quad,
                     const Eigen::Matrix<double, 6, Eigen::Dynamic>& resultant,
                     Eigen::Ref<Eigen::VectorXd> load) {
    QuadStrains all = QuadStrains::Zero(8, resultant.cols());
    all.topRows<6>() = resultant;
    const Eigen::VectorXd force = element_forces(model.reference, quad_tables(model, quad), all);
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        load.segment<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]) +=
            force.segment<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i));
    }
}

} // namespace vrid
