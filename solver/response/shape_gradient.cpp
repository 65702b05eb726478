#include "solver/response/shape_gradient.hpp"

#include "solver/element/plate_shape.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

VectorXd quad_part(const std::vector<int>& nodes, const VectorXd& u) {
    VectorXd part(unknowns_per_node * static_cast<Index>(nodes.size()));
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        part.segment<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i)) =
            u.segment<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]);
    }
    return part;
}

// Of one quad: 2 n x numbers.
MatrixXd quad_gradient(const PlateModel& model, int quad, const std::vector<EnergyTerm>& energy,
                       const std::vector<EnergyTerm>& inertia, Index numbers) {
    const ReferenceElement& r = model.reference;
    const Eigen::Matrix2Xd X = element_nodes(model, quad);
    const ElementTables tables = element_tables(r, X);
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    const auto m = static_cast<std::size_t>(r.m);
    const std::span<const PlateStiffness> stiffness{
        model.stiffness.data() + static_cast<std::size_t>(quad) * m, m};
    MatrixXd gradient = MatrixXd::Zero(2 * r.n, numbers);
    const auto add = [&](const EnergyTerm& term, const Eigen::Matrix2Xd& own) {
        gradient.col(term.number) += term.factor * Eigen::Map<const VectorXd>(own.data(), 2 * r.n);
    };
    for (const EnergyTerm& term : energy) {
        const VectorXd left = quad_part(nodes, term.left);
        if (!left.isZero(0)) { // much of a board does not move
            add(term, element_shape_gradient(r, tables, X, stiffness, left,
                                             quad_part(nodes, term.right)));
        }
    }
    const Eigen::Matrix3Xd mass = model.inertia.middleCols(Index(quad) * r.m, r.m);
    for (const EnergyTerm& term : inertia) {
        add(term, element_mass_gradient(r, tables, mass, quad_part(nodes, term.left),
                                        quad_part(nodes, term.right)));
    }
    return gradient;
}

} // namespace

NodeGradient node_gradient(const PlateModel& model, const std::vector<EnergyTerm>& energy,
                           const std::vector<EnergyTerm>& inertia, Index numbers, int threads) {
    const auto quads = static_cast<int>(model.mesh.quads.size());
    std::vector<MatrixXd> parts(model.mesh.quads.size());
    for_each_in_parallel(quads, threads, [&](int quad) {
        parts[static_cast<std::size_t>(quad)] =
            quad_gradient(model, quad, energy, inertia, numbers);
    });
    NodeGradient gradient = MatrixXd::Zero(Index(2) * model.numbering.nodes, numbers);
    for (std::size_t quad = 0; quad < parts.size(); ++quad) {
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            gradient.middleRows<2>(Index(2) * nodes[i]) +=
                parts[quad].middleRows<2>(2 * static_cast<Index>(i));
        }
    }
    return gradient;
}

} // namespace vrid
