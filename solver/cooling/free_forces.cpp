#include "solver/cooling/free_forces.hpp"

#include "solver/system/parallel.hpp"

namespace vrid {

FreeForces free_forces(const PlateModel& model, SectionCache& sections,
                       std::vector<PlateStiffness>* stiffness) {
    const auto points = static_cast<Index>(model.stiffness.size());
    FreeForces forces{Resultants(6, points), Resultants(6, points), {}};
    const auto add = [&](Index point, const Vector2d& at, int stack) {
        const Section<double>& s = sections.section(stack, at);
        forces.at_zero.col(point) << s.N0, s.M0;
        forces.per_kelvin.col(point) << s.NT, s.MT;
        forces.stack.push_back(stack);
        if (stiffness != nullptr) {
            (*stiffness)[static_cast<std::size_t>(point)] = {s.A, s.B, s.D, s.S};
        }
    };
    visit_points(model.mesh, model.reference, sections, add);
    return forces;
}

Eigen::MatrixXd nodal_forces(const PlateModel& model, const std::vector<Resultants>& resultants,
                             int threads) {
    const auto count = static_cast<Index>(resultants.size());
    const Index m = model.reference.m;
    return assembled_forces(model, count, threads, [&](int quad) {
        const ElementTables tables = quad_tables(model, quad);
        Eigen::MatrixXd part(Index(unknowns_per_node) * model.reference.n, count);
        Eigen::Matrix<double, 8, Eigen::Dynamic> all(8, m);
        all.setZero();
        for (Index k = 0; k < count; ++k) {
            all.topRows<6>() = resultants[static_cast<std::size_t>(k)].middleCols(quad * m, m);
            part.col(k) = element_forces(model.reference, tables, all);
        }
        return part;
    });
}

} // namespace vrid
