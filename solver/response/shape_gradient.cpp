#include "solver/response/shape_gradient.hpp"

#include <array>

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

namespace {

// left^T M right of a quad, u v w bx by of a node each.
double mass_product(const std::array<MatrixXd, 5>& moment, const VectorXd& left,
                    const VectorXd& right) {
    const Index n = left.size() / unknowns_per_node;
    const Eigen::Map<const MatrixXd> l(left.data(), unknowns_per_node, n);
    const Eigen::Map<const MatrixXd> r(right.data(), unknowns_per_node, n);
    const auto meet = [&](const MatrixXd& of, Index a, Index b) {
        return (l.row(a) * of * r.row(b).transpose()).value();
    };
    const bool tilted = moment[3].size() > 0;
    const MatrixXd& along = tilted ? moment[3] : moment[1]; // I1 C: u and bx
    double sum = 0;
    for (const Index c : {0, 1, 2}) {
        sum += meet(moment[0], c, c);
    }
    for (const Index c : {3, 4}) {
        sum += meet(moment[2], c, c);
    }
    sum += meet(along, 0, 3) + meet(along, 3, 0) + meet(moment[1], 1, 4) + meet(moment[1], 4, 1);
    return tilted ? sum + meet(moment[4], 2, 3) + meet(moment[4], 3, 2) : sum;
}

VectorXd quad_sums(const PlateModel& model, int quad, const std::vector<EnergyTerm>& energy,
                   const std::vector<EnergyTerm>& inertia, Index numbers) {
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    const auto m = static_cast<std::size_t>(model.reference.m);
    const std::span<const PlateStiffness> stiffness{
        model.stiffness.data() + static_cast<std::size_t>(quad) * m, m};
    const ElementTables tables = quad_tables(model, quad);
    VectorXd sums = VectorXd::Zero(numbers);
    for (const EnergyTerm& term : energy) {
        const VectorXd left = quad_part(nodes, term.left);
        if (left.isZero(0)) {
            continue;
        }
        const auto strain = element_strains(model.reference, tables, left);
        const auto resultant = element_resultants(
            stiffness, element_strains(model.reference, tables, quad_part(nodes, term.right)));
        sums(term.number) += term.factor * strain.cwiseProduct(resultant).colwise().sum().dot(
                                               tables.weight.transpose());
    }
    if (!inertia.empty()) {
        const auto moment = quad_moments(model, quad);
        for (const EnergyTerm& term : inertia) {
            sums(term.number) += term.factor * mass_product(moment, quad_part(nodes, term.left),
                                                            quad_part(nodes, term.right));
        }
    }
    return sums;
}

} // namespace

VectorXd term_sums(const PlateModel& model, const std::vector<EnergyTerm>& energy,
                   const std::vector<EnergyTerm>& inertia, Index numbers, int threads) {
    std::vector<VectorXd> parts(model.mesh.quads.size());
    for_each_in_parallel(static_cast<int>(parts.size()), threads, [&](int quad) {
        parts[static_cast<std::size_t>(quad)] = quad_sums(model, quad, energy, inertia, numbers);
    });
    VectorXd sums = VectorXd::Zero(numbers);
    for (const VectorXd& part : parts) {
        sums += part;
    }
    return sums;
}

} // namespace vrid
