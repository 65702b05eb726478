#include "solver/system/large_motion.hpp"

#include <algorithm>
#include <utility>

#include "solver/element/shell_line.hpp"
#include "solver/element/stress_stiffness.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

struct QuadState {
    double least_c = 1, most_strain = 0, energy = 0;
};

// Of every quad.
StrainFields strain_fields(const LargeMotionModel& bent, int threads,
                           const std::function<PointStrains(int quad)>& of_quad) {
    StrainFields all(bent.tables.size());
    for_each_in_parallel(static_cast<int>(all.size()), threads,
                         [&](int quad) { all[static_cast<std::size_t>(quad)] = of_quad(quad); });
    return all;
}

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
    BentState state;
    state.K.resize(model.mesh.quads.size());
    std::vector<QuadState> parts(model.mesh.quads.size());
    state.force = assembled_forces(model, 1, threads, [&](int quad) {
        const auto i = static_cast<std::size_t>(quad);
        const ShellTables& tables = bent.tables[i];
        const VectorXd own = quad_part(model, quad, u);
        ShellStrains at = shell_strains(model.reference, tables, own);
        const std::span<const PlateStiffness> sections = quad_sections(model, quad);
        ElementTables linear;
        linear.weight = tables.weight;
        linear.strain = std::move(at.ds);
        element_stiffness(model.reference, linear, sections, state.K[i]);
        const auto resultant = element_resultants(sections, at.strain);
        QuadState& part = parts[i];
        add_stress_stiffness(model.reference, tables, own, resultant, state.K[i]);
        part.least_c = at.least_c;
        part.most_strain = at.strain.topRows<3>().cwiseAbs().maxCoeff();
        part.energy =
            at.strain.cwiseProduct(resultant).colwise().sum().dot(tables.weight.transpose()) / 2;
        return element_forces(model.reference, linear, resultant);
    });
    for (const QuadState& part : parts) {
        state.least_c = part.least_c > state.least_c ? state.least_c : part.least_c;
        state.most_strain = std::max(state.most_strain, part.most_strain);
        state.energy += part.energy;
    }
    return state;
}

MatrixXd tangent_forces(const PlateModel& model, const std::vector<MatrixXd>& K,
                        const MatrixXd& u) {
    MatrixXd force = MatrixXd::Zero(u.rows(), u.cols());
    for (std::size_t quad = 0; quad < K.size(); ++quad) {
        const MatrixXd own = quad_part(model, static_cast<int>(quad), u);
        if (!own.isZero(0)) { // all columns at once: what takes time is reading K
            add_quad_part(model, static_cast<int>(quad), K[quad] * own, force);
        }
    }
    return force;
}

StrainFields bent_strains(const LargeMotionModel& bent, const VectorXd& u, int threads) {
    return strain_fields(bent, threads, [&](int quad) {
        return strains_at(bent.model.reference, bent.tables[static_cast<std::size_t>(quad)],
                          quad_part(bent.model, quad, u));
    });
}

StrainFields strain_changes(const LargeMotionModel& bent, const VectorXd& u, const VectorXd& x,
                            int threads) {
    return strain_fields(bent, threads, [&](int quad) {
        return strain_line(bent.model.reference, bent.tables[static_cast<std::size_t>(quad)],
                           quad_part(bent.model, quad, u), quad_part(bent.model, quad, x))
            .first;
    });
}

BentLine bent_line(const LargeMotionModel& bent, const VectorXd& u, const VectorXd& x,
                   int threads) {
    const PlateModel& model = bent.model;
    const std::size_t quads = bent.tables.size();
    BentLine line{StrainFields(quads), StrainFields(quads), {}};
    line.forces = assembled_forces(model, 1, threads, [&](int quad) {
        const auto i = static_cast<std::size_t>(quad);
        const VectorXd at = quad_part(model, quad, u);
        const VectorXd by = quad_part(model, quad, x);
        StrainLine strains = strain_line(model.reference, bent.tables[i], at, by);
        const std::span<const PlateStiffness> sections = quad_sections(model, quad);
        const VectorXd forces = second_forces(model.reference, bent.tables[i], at, by,
                                              {element_resultants(sections, strains.value),
                                               element_resultants(sections, strains.first),
                                               element_resultants(sections, strains.second)});
        line.first[i] = std::move(strains.first);
        line.second[i] = std::move(strains.second);
        return forces;
    });
    return line;
}

VectorXd bent_forces(const LargeMotionModel& bent, const VectorXd& u, int threads) {
    const PlateModel& model = bent.model;
    return assembled_forces(model, 1, threads, [&](int quad) {
        const ShellTables& tables = bent.tables[static_cast<std::size_t>(quad)];
        ShellStrains at = shell_strains(model.reference, tables, quad_part(model, quad, u));
        ElementTables linear;
        linear.weight = tables.weight;
        linear.strain = std::move(at.ds);
        return element_forces(model.reference, linear,
                              element_resultants(quad_sections(model, quad), at.strain));
    });
}

} // namespace vrid
