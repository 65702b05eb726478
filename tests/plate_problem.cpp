#include "plate_problem.hpp"

#include <algorithm>

namespace vrid::tests {

Section<double> moved_to(const Section<double>& section, double h) {
    Section<double> moved = section;
    moved.B = section.B - h * section.A;
    moved.D = section.D - 2 * h * section.B + h * h * section.A;
    moved.I1 = section.I1 - h * section.I0;
    moved.I2 = section.I2 - 2 * h * section.I1 + h * h * section.I0;
    return moved;
}

Section<double> isotropic_section(double E, double nu, double t) {
    const double G = E / (2 * (1 + nu));
    const PlyConstants<double> ply{E, E, nu, G, G, G, 1000, 0, 0};
    return moved_to(section(std::vector<Lamina<double>>{lamina(ply, 0.0, t)}), t / 2);
}

std::vector<int> outline_nodes(const PlateModel& model,
                               const std::function<bool(double x, double y)>& on) {
    std::vector<int> nodes;
    for (const OutlineEdge& side : model.mesh.outline) {
        const int edge = model.mesh.quad_edges[static_cast<std::size_t>(side.quad)]
                                              [static_cast<std::size_t>(side.side)];
        for (const int node : edge_nodes(model.mesh, model.numbering, edge)) {
            if (on(model.numbering.position(0, node), model.numbering.position(1, node))) {
                nodes.push_back(node);
            }
        }
    }
    std::sort(nodes.begin(), nodes.end());
    nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
    return nodes;
}

int nearest_node(const PlateModel& model, double x, double y) {
    Eigen::Index best = 0;
    (model.numbering.position.colwise() - Eigen::Vector2d(x, y)).colwise().norm().minCoeff(&best);
    return static_cast<int>(best);
}

CaseSolution solve_one(const PlateModel& model, const Loading& loading) {
    Seconds seconds;
    return solve_loadings(model, {loading}, elimination_order(model.numbering, {}), 1, seconds).front();
}

double torsion_stiffness(const PlateModel& model, double length) {
    Loading loading = free_loading(model);
    prescribe(loading, line_nodes(model, -length / 2), comp_w);
    prescribe(loading, line_nodes(model, -length / 2), comp_by);
    prescribe_turn(loading, model, line_nodes(model, length / 2), 1);
    prescribe(loading, line_nodes(model, length / 2), comp_by, -1);
    hold_in_plane(loading, model, -length / 2, length / 2);
    return solve_one(model, loading).stiffness * length;
}

Eigen::MatrixXd assembled(const PlateModel& model) {
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(model.unknowns(), model.unknowns());
    Eigen::MatrixXd part;
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        quad_stiffness(model, static_cast<int>(quad), part);
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        for (std::size_t j = 0; j < nodes.size(); ++j) {
            for (std::size_t i = 0; i < nodes.size(); ++i) {
                K.block<5, 5>(5 * nodes[i], 5 * nodes[j]) += part.block<5, 5>(
                    5 * static_cast<Eigen::Index>(i), 5 * static_cast<Eigen::Index>(j));
            }
        }
    }
    return K;
}

} // namespace vrid::tests
