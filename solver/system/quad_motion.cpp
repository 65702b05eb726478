#include "solver/system/quad_motion.hpp"

namespace vrid {

Eigen::VectorXd quad_part(const PlateModel& model, int quad,
                          const Eigen::Ref<const Eigen::VectorXd>& u) {
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    Eigen::VectorXd part(unknowns_per_node * static_cast<Index>(nodes.size()));
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        part.segment<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i)) =
            u.segment<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]);
    }
    return part;
}

void add_quad_part(const PlateModel& model, int quad, const Eigen::VectorXd& part,
                   Eigen::Ref<Eigen::VectorXd> force) {
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        force.segment<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]) +=
            part.segment<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i));
    }
}

} // namespace vrid
