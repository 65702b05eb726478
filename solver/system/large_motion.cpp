#include "solver/system/large_motion.hpp"

#include <algorithm>
#include <utility>

#include "solver/element/shell_line.hpp"
#include "solver/element/stress_stiffness.hpp"
#include "solver/system/parallel.hpp"
#include "solver/system/quad_motion.hpp"

namespace vrid {

namespace {

void add_part(const PlateModel& model, int quad, const VectorXd& part, VectorXd& force) {
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        force.segment<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]) +=
            part.segment<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i));
    }
}

struct QuadState {
    VectorXd force;
    double least_c = 1, most_strain = 0, energy = 0;
};

} // namespace

RestShape flat_blank() {
    RestShape flat;
    flat.height.x = {0};
    flat.height.value = {0};
    flat.slopes = {0};
    return flat;
}

LargeMotionModel large_motion_model(const PlateModel& model, int threads) {
    LargeMotionModel bent{model, std::vector<ShellTables>(model.mesh.quads.size())};
    const RestShape rest = model.rest ? *model.rest : flat_blank();
    for_each_in_parallel(static_cast<int>(model.mesh.quads.size()), threads, [&](int quad) {
        bent.tables[static_cast<std::size_t>(quad)] =
            shell_tables(model.reference, element_nodes(model, quad), rest);
    });
    return bent;
}

BentState bent_state(const LargeMotionModel& bent, const VectorXd& u, int threads) {
    const PlateModel& model = bent.model;
    const auto quads = static_cast<int>(model.mesh.quads.size());
    const auto m = static_cast<std::size_t>(model.reference.m);
    BentState state;
    state.K.resize(model.mesh.quads.size());
    std::vector<QuadState> parts(model.mesh.quads.size());
    for_each_in_parallel(quads, threads, [&](int quad) {
        const auto i = static_cast<std::size_t>(quad);
        const ShellTables& tables = bent.tables[i];
        const VectorXd own = quad_part(model, quad, u);
        ShellStrains at = shell_strains(model.reference, tables, own);
        const std::span<const PlateStiffness> sections{model.stiffness.data() + i * m, m};
        ElementTables linear;
        linear.weight = tables.weight;
        linear.strain = std::move(at.ds);
        element_stiffness(model.reference, linear, sections, state.K[i]);
        const auto resultant = element_resultants(sections, at.strain);
        QuadState& part = parts[i];
        part.force = element_forces(model.reference, linear, resultant);
        add_stress_stiffness(model.reference, tables, own, resultant, state.K[i]);
        part.least_c = at.least_c;
        part.most_strain = at.strain.topRows<3>().cwiseAbs().maxCoeff();
        part.energy =
            at.strain.cwiseProduct(resultant).colwise().sum().dot(tables.weight.transpose()) / 2;
    });
    state.force = VectorXd::Zero(u.size());
    for (int quad = 0; quad < quads; ++quad) {
        const QuadState& part = parts[static_cast<std::size_t>(quad)];
        add_part(model, quad, part.force, state.force);
        state.least_c = part.least_c > state.least_c ? state.least_c : part.least_c;
        state.most_strain = std::max(state.most_strain, part.most_strain);
        state.energy += part.energy;
    }
    return state;
}

MatrixXd tangent_forces(const PlateModel& model, const std::vector<MatrixXd>& K,
                        const MatrixXd& u) {
    MatrixXd force = MatrixXd::Zero(u.rows(), u.cols());
    MatrixXd own;
    MatrixXd part;
    for (std::size_t quad = 0; quad < K.size(); ++quad) {
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        own.resize(unknowns_per_node * static_cast<Index>(nodes.size()), u.cols());
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            own.middleRows<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i)) =
                u.middleRows<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]);
        }
        if (own.isZero(0)) {
            continue;
        }
        part.noalias() = K[quad] * own; // all columns at once: what takes time is reading K
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            force.middleRows<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]) +=
                part.middleRows<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i));
        }
    }
    return force;
}

VectorXd tangent_forces(const LargeMotionModel& bent, const BentState& state, const VectorXd& u) {
    return tangent_forces(bent.model, state.K, u);
}

StrainFields bent_strains(const LargeMotionModel& bent, const VectorXd& u, int threads) {
    const PlateModel& model = bent.model;
    StrainFields all(bent.tables.size());
    for_each_in_parallel(static_cast<int>(all.size()), threads, [&](int quad) {
        const auto i = static_cast<std::size_t>(quad);
        all[i] = strains_at(model.reference, bent.tables[i], quad_part(model, quad, u));
    });
    return all;
}

StrainFields strain_changes(const LargeMotionModel& bent, const VectorXd& u, const VectorXd& x,
                            int threads) {
    const PlateModel& model = bent.model;
    StrainFields all(bent.tables.size());
    for_each_in_parallel(static_cast<int>(all.size()), threads, [&](int quad) {
        const auto i = static_cast<std::size_t>(quad);
        all[i] = strain_line(model.reference, bent.tables[i], quad_part(model, quad, u),
                             quad_part(model, quad, x))
                     .first;
    });
    return all;
}

BentLine bent_line(const LargeMotionModel& bent, const VectorXd& u, const VectorXd& x,
                   int threads) {
    const PlateModel& model = bent.model;
    const auto m = static_cast<std::size_t>(model.reference.m);
    const std::size_t quads = bent.tables.size();
    BentLine line{StrainFields(quads), StrainFields(quads), VectorXd::Zero(u.size())};
    std::vector<VectorXd> parts(quads);
    for_each_in_parallel(static_cast<int>(quads), threads, [&](int quad) {
        const auto i = static_cast<std::size_t>(quad);
        const VectorXd at = quad_part(model, quad, u);
        const VectorXd by = quad_part(model, quad, x);
        StrainLine strains = strain_line(model.reference, bent.tables[i], at, by);
        const std::span<const PlateStiffness> sections{model.stiffness.data() + i * m, m};
        parts[i] = second_forces(model.reference, bent.tables[i], at, by,
                                 {element_resultants(sections, strains.value),
                                  element_resultants(sections, strains.first),
                                  element_resultants(sections, strains.second)});
        line.first[i] = std::move(strains.first);
        line.second[i] = std::move(strains.second);
    });
    for (std::size_t i = 0; i < quads; ++i) {
        add_part(model, static_cast<int>(i), parts[i], line.forces);
    }
    return line;
}

VectorXd bent_forces(const LargeMotionModel& bent, const VectorXd& u, int threads) {
    const PlateModel& model = bent.model;
    const auto m = static_cast<std::size_t>(model.reference.m);
    std::vector<VectorXd> parts(bent.tables.size());
    for_each_in_parallel(static_cast<int>(parts.size()), threads, [&](int quad) {
        const auto i = static_cast<std::size_t>(quad);
        ShellStrains at = shell_strains(model.reference, bent.tables[i], quad_part(model, quad, u));
        ElementTables linear;
        linear.weight = bent.tables[i].weight;
        linear.strain = std::move(at.ds);
        const std::span<const PlateStiffness> sections{model.stiffness.data() + i * m, m};
        parts[i] = element_forces(model.reference, linear, element_resultants(sections, at.strain));
    });
    VectorXd force = VectorXd::Zero(u.size());
    for (std::size_t i = 0; i < parts.size(); ++i) {
        add_part(model, static_cast<int>(i), parts[i], force);
    }
    return force;
}

} // namespace vrid
