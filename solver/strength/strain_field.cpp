#include "solver/strength/strain_field.hpp"

#include "mesh/lobatto.hpp"
#include "solver/element/director_shell.hpp"
#include "solver/system/large_motion.hpp"
#include "solver/system/quad_motion.hpp"

namespace vrid {

const Eigen::VectorXd& strain_nodes() {
    static const Eigen::VectorXd nodes = lobatto(strain_points).point;
    return nodes;
}

StrainField strain_field(const PlateModel& model, const Eigen::VectorXd& u) {
    const ReferenceElement reference = reference_element(model.reference.p, strain_nodes());
    StrainField field;
    field.reserve(model.mesh.quads.size());
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const ElementTables tables =
            element_tables(reference, element_nodes(model, quad), model.rest.get());
        field.push_back(element_strains(reference, tables, quad_part(model, quad, u)));
    }
    return field;
}

StrainField bent_strain_field(const PlateModel& model, const Eigen::VectorXd& u) {
    const ReferenceElement reference = reference_element(model.reference.p, strain_nodes());
    const RestShape rest = model.rest ? *model.rest : flat_blank();
    StrainField field;
    field.reserve(model.mesh.quads.size());
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const ShellTables tables = shell_tables(reference, element_nodes(model, quad), rest);
        field.push_back(shell_strains(reference, tables, quad_part(model, quad, u)).strain);
    }
    return field;
}

} // namespace vrid
