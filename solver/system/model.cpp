#include "solver/system/model.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/element/director_shell.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {
namespace {

PlateModel bare_model(const Mesh& mesh, int degree) {
    PlateModel model{mesh, number_nodes(mesh, degree), reference_element(degree), {}, {}, nullptr};
    const auto points = mesh.quads.size() * static_cast<std::size_t>(model.reference.m);
    model.stiffness.resize(points);
    model.inertia.resize(3, static_cast<Index>(points));
    return model;
}

void set_section(PlateModel& model, std::size_t point, const Section<double>& s) {
    model.stiffness[point] = {s.A, s.B, s.D, s.S};
    model.inertia.col(static_cast<Index>(point)) << s.I0, s.I1, s.I2;
}

} // namespace

int common_stack(const Eigen::Matrix2Xd& points, int q, SectionCache& sections) {
    const std::array<Index, 4> corners{0, q - 1, Index(q) * (q - 1), Index(q) * q - 1};
    const int stack = sections.stack_index(points.col(0));
    const bool same = std::all_of(corners.begin() + 1, corners.end(), [&](Index c) {
        return sections.stack_index(points.col(c)) == stack;
    });
    return same ? stack : -1;
}

Eigen::Matrix2Xd integration_points(const PlateModel& model, int quad) {
    return quad_points(model.mesh, quad,
                       geometry_to_points(model.mesh, model.reference.rule.point));
}

void visit_points(const Mesh& mesh, const ReferenceElement& reference, SectionCache& sections,
                  const VisitPoint& visit) {
    const Eigen::MatrixXd to_points = geometry_to_points(mesh, reference.rule.point);
    Index point = 0;
    for (int quad = 0; quad < static_cast<int>(mesh.quads.size()); ++quad) {
        const Eigen::Matrix2Xd position = quad_points(mesh, quad, to_points);
        const int stack = common_stack(position, reference.q, sections);
        for (const auto& at : position.colwise()) {
            visit(point++, at, stack >= 0 ? stack : sections.stack_index(at));
        }
    }
}

PlateModel make_model(const Mesh& mesh, int degree, SectionCache& sections) {
    PlateModel model = bare_model(mesh, degree);
    visit_points(mesh, model.reference, sections, [&](Index point, const Vector2d& at, int stack) {
        set_section(model, static_cast<std::size_t>(point), sections.section(stack, at));
    });
    return model;
}

PlateModel make_model(const Mesh& mesh, int degree, const Section<double>& section) {
    PlateModel model = bare_model(mesh, degree);
    for (std::size_t point = 0; point < model.stiffness.size(); ++point) {
        set_section(model, point, section);
    }
    return model;
}

Eigen::Matrix2Xd element_nodes(const PlateModel& model, int quad) {
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    Eigen::Matrix2Xd X(2, static_cast<Index>(nodes.size()));
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        X.col(static_cast<Index>(i)) = model.numbering.position.col(nodes[i]);
    }
    return X;
}

Eigen::MatrixXd quad_part(const PlateModel& model, int quad,
                          const Eigen::Ref<const Eigen::MatrixXd>& u) {
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    Eigen::MatrixXd part(unknowns_per_node * static_cast<Index>(nodes.size()), u.cols());
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        part.middleRows<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i)) =
            u.middleRows<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]);
    }
    return part;
}

void add_quad_part(const PlateModel& model, int quad, const Eigen::Ref<const Eigen::MatrixXd>& part,
                   Eigen::Ref<Eigen::MatrixXd> force) {
    const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        force.middleRows<unknowns_per_node>(Index(unknowns_per_node) * nodes[i]) +=
            part.middleRows<unknowns_per_node>(unknowns_per_node * static_cast<Index>(i));
    }
}

Eigen::MatrixXd assembled_forces(const PlateModel& model, Index columns, int threads,
                                 const std::function<Eigen::MatrixXd(int quad)>& of_quad) {
    std::vector<Eigen::MatrixXd> parts(model.mesh.quads.size());
    const auto quads = static_cast<int>(parts.size());
    for_each_in_parallel(quads, threads,
                         [&](int quad) { parts[static_cast<std::size_t>(quad)] = of_quad(quad); });
    Eigen::MatrixXd force = Eigen::MatrixXd::Zero(model.unknowns(), columns);
    for (int quad = 0; quad < quads; ++quad) {
        if (const Eigen::MatrixXd& part = parts[static_cast<std::size_t>(quad)]; part.size() > 0) {
            add_quad_part(model, quad, part, force);
        }
    }
    return force;
}

std::span<const PlateStiffness> quad_sections(const PlateModel& model, int quad) {
    const auto m = static_cast<std::size_t>(model.reference.m);
    return {model.stiffness.data() + static_cast<std::size_t>(quad) * m, m};
}

ElementTables quad_tables(const PlateModel& model, int quad) {
    return element_tables(model.reference, element_nodes(model, quad), model.rest.get());
}

void quad_stiffness(const PlateModel& model, int quad, Eigen::MatrixXd& K) {
    const ElementTables tables = quad_tables(model, quad);
    element_stiffness(model.reference, tables, quad_sections(model, quad), K);
}

std::array<Eigen::MatrixXd, 5> quad_moments(const PlateModel& model, int quad) {
    return quad_moments(model, quad, element_nodes(model, quad));
}

std::array<Eigen::MatrixXd, 5> quad_moments(const PlateModel& model, int quad,
                                            const Eigen::Matrix2Xd& X) {
    const ElementTables tables = element_tables(model.reference, X);
    const int m = model.reference.m;
    Eigen::Matrix3Xd inertia = model.inertia.middleCols(Index(quad) * m, m);
    auto [I0, I1, I2] = element_moments(model.reference, tables, inertia);
    std::array<Eigen::MatrixXd, 5> all{std::move(I0), std::move(I1), std::move(I2), {}, {}};
    if (model.rest) {
        const VectorXd x = model.reference.N * X.row(0).transpose();
        const double middle = X.row(0).mean();
        for (Index c = 0; c < m; ++c) {
            const RestFrame frame = model.rest->frame(x(c), middle);
            const double I1_here = inertia(1, c);
            inertia.col(c) << 0, I1_here * frame.C, I1_here * frame.S;
        }
        auto tilted = element_moments(model.reference, tables, inertia);
        all[3] = std::move(tilted[1]);
        all[4] = std::move(tilted[2]);
    }
    return all;
}

Eigen::MatrixXd internal_forces(const PlateModel& model, const Eigen::MatrixXd& u, int threads) {
    return assembled_forces(model, u.cols(), threads, [&](int quad) {
        Eigen::MatrixXd part = quad_part(model, quad, u);
        if (part.isZero(0)) {
            return Eigen::MatrixXd(); // much of a board does not move while its supports are
                                      // prescribed
        }
        const ElementTables tables = quad_tables(model, quad);
        for (Index c = 0; c < part.cols(); ++c) {
            if (!part.col(c).isZero(0)) {
                const auto strain = element_strains(model.reference, tables, part.col(c));
                const auto resultant = element_resultants(quad_sections(model, quad), strain);
                part.col(c) = element_forces(model.reference, tables, resultant);
            }
        }
        return part;
    });
}

VectorXd pressure_forces(const PlateModel& model,
                         const std::function<double(double x, double y)>& pressure) {
    VectorXd force = VectorXd::Zero(model.unknowns());
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const Eigen::Matrix2Xd X = element_nodes(model, quad);
        const ElementTables tables = element_tables(model.reference, X);
        const Eigen::MatrixXd at = model.reference.N * X.transpose();
        VectorXd weighted(model.reference.m);
        for (Index c = 0; c < weighted.size(); ++c) {
            weighted(c) = tables.weight(c) * pressure(at(c, 0), at(c, 1));
        }
        const VectorXd part = model.reference.N.transpose() * weighted;
        const std::vector<int>& nodes = model.numbering.quad_nodes[static_cast<std::size_t>(quad)];
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            force(unknowns_per_node * nodes[i] + 2) += part(static_cast<Index>(i));
        }
    }
    return force;
}

void add_mass_only(const Board& board, PlateModel& model) {
    model.inertia.row(0).array() += board.mass_only.resin;
    if (!board.stance || board.mass_only.inserts_per_foot == 0) {
        return;
    }
    const Stance& stance = *board.stance;
    const double inserts = board.mass_only.inserts_per_foot * board.mass_only.insert_mass /
                           (stance.foot_length * stance.foot_width); // [kg/m2]
    const int m = model.reference.m;
    const Eigen::MatrixXd to_points = geometry_to_points(model.mesh, model.reference.rule.point);
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const Eigen::Matrix2Xd at = quad_points(model.mesh, quad, to_points);
        for (Eigen::Index c = 0; c < m; ++c) {
            for (const double foot : {stance.rear(), stance.front()}) {
                if (std::abs(at(0, c) - foot) < stance.foot_length / 2 &&
                    std::abs(at(1, c)) < stance.foot_width / 2) {
                    model.inertia(0, Eigen::Index(quad) * m + c) += inserts;
                }
            }
        }
    }
}

} // namespace vrid
