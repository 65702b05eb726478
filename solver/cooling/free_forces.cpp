#include "solver/cooling/free_forces.hpp"

#include "solver/system/parallel.hpp"
#include "solver/system/quad_motion.hpp"

namespace vrid {

namespace {

// Calls visit(point, section, its stack) for every integration point.
template <class Visit>
void visit_points(const PlateModel& model, SectionCache& sections, const Visit& visit) {
    const Eigen::MatrixXd to_points = geometry_to_points(model.mesh, model.reference.rule.point);
    Index point = 0;
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const Eigen::Matrix2Xd at = quad_points(model.mesh, quad, to_points);
        const int stack = common_stack(at, model.reference.q, sections);
        for (Index c = 0; c < at.cols(); ++c, ++point) {
            const int here = stack >= 0 ? stack : sections.stack_index(at.col(c));
            visit(point, sections.section(here, at.col(c)), here);
        }
    }
}

FreeForces no_forces(const PlateModel& model) {
    const auto points = static_cast<Index>(model.stiffness.size());
    return {Resultants(6, points), Resultants(6, points), std::vector<int>(model.stiffness.size())};
}

void set_point(FreeForces& forces, Index point, const Section<double>& s, int stack) {
    forces.at_zero.col(point) << s.N0, s.M0;
    forces.per_kelvin.col(point) << s.NT, s.MT;
    forces.stack[static_cast<std::size_t>(point)] = stack;
}

} // namespace

FreeForces free_forces(PlateModel& model, SectionCache& sections) {
    FreeForces forces = no_forces(model);
    visit_points(model, sections, [&](Index point, const Section<double>& s, int stack) {
        model.stiffness[static_cast<std::size_t>(point)] = {s.A, s.B, s.D, s.S};
        set_point(forces, point, s, stack);
    });
    return forces;
}

FreeForces free_forces(const PlateModel& model, SectionCache& sections) {
    FreeForces forces = no_forces(model);
    visit_points(model, sections, [&](Index point, const Section<double>& s, int stack) {
        set_point(forces, point, s, stack);
    });
    return forces;
}

Eigen::MatrixXd nodal_forces(const PlateModel& model, const std::vector<Resultants>& resultants,
                             int threads) {
    const auto count = static_cast<Index>(resultants.size());
    const Index m = model.reference.m;
    std::vector<Eigen::MatrixXd> parts(model.mesh.quads.size());
    for_each_in_parallel(static_cast<int>(parts.size()), threads, [&](int quad) {
        const ElementTables tables = quad_tables(model, quad);
        Eigen::MatrixXd& part = parts[static_cast<std::size_t>(quad)];
        part.resize(Index(unknowns_per_node) * model.reference.n, count);
        Eigen::Matrix<double, 8, Eigen::Dynamic> all(8, m);
        all.setZero();
        for (Index k = 0; k < count; ++k) {
            all.topRows<6>() = resultants[static_cast<std::size_t>(k)].middleCols(quad * m, m);
            part.col(k) = element_forces(model.reference, tables, all);
        }
    });
    Eigen::MatrixXd force = Eigen::MatrixXd::Zero(model.unknowns(), count);
    for (std::size_t quad = 0; quad < parts.size(); ++quad) {
        for (Index k = 0; k < count; ++k) {
            add_quad_part(model, static_cast<int>(quad), parts[quad].col(k), force.col(k));
        }
    }
    return force;
}

} // namespace vrid
