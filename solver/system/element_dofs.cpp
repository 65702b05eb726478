#include "solver/system/element_dofs.hpp"

namespace vrid {

ElementDofs element_dofs(const PlateModel& model) {
    ElementDofs dofs;
    dofs.nodes = model.numbering.nodes;
    dofs.first.push_back(0);
    for (const std::vector<int>& nodes : model.numbering.quad_nodes) {
        dofs.node.insert(dofs.node.end(), nodes.begin(), nodes.end());
        dofs.first.push_back(static_cast<int>(dofs.node.size()));
        Eigen::Vector2d mean = Eigen::Vector2d::Zero();
        for (const int node : nodes) {
            mean += model.numbering.position.col(node);
        }
        dofs.centroid.emplace_back(mean / static_cast<double>(nodes.size()));
    }
    return dofs;
}

} // namespace vrid
