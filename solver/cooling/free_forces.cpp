#include "solver/cooling/free_forces.hpp"

#include <algorithm>

#include <Eigen/LU>

#include "solver/cooling/quad_strains.hpp"
#include "solver/laminate/stacking.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Vector6 = Eigen::Matrix<double, 6, 1>;

std::string name_of(const StackPart<double>& part) {
    switch (part.kind) {
    case PartKind::layer:
    case PartKind::core:
        return part.item->layer->name;
    case PartKind::sidewall:
        return "sidewall";
    case PartKind::tip_spacer:
        return "tip spacer";
    case PartKind::edge:
    case PartKind::flange:
        break;
    }
    return "edge";
}

// Parts in the order of the layup; what stands in a layer's place comes after it.
std::vector<std::string> names_of(const Layup<double>& layup) {
    std::vector<std::string> names;
    const Board& board = *layup.board;
    for (const Layer& layer : board.layers) {
        names.push_back(layer.name);
        if (&layer == board.layers.data() && board.edge) {
            names.emplace_back("edge");
        }
        if (layer.kind == LayerKind::core) {
            if (board.sidewall) {
                names.emplace_back("sidewall");
            }
            if (board.tip_spacer) {
                names.emplace_back("tip spacer");
            }
        }
    }
    return names;
}

void add_ply(const Lamina<double>& ply, double z, double thickness, Index point,
             PartForces& forces) {
    const double first = thickness * (z + thickness / 2); // int z dz
    const auto add = [&](const Eigen::Vector3d& strain, Resultants& to) {
        const Eigen::Vector3d stress = ply.Qbar * strain;
        to.col(point).head<3>() += stress * thickness;
        to.col(point).tail<3>() += stress * first;
    };
    add(ply.offset, forces.at_zero);
    add(ply.expansion, forces.per_kelvin);
    add(Eigen::Vector3d(1, 1, 0), forces.of_common);
}

class Summation {
  public:
    Summation(const PlateModel& model, const Layup<double>& layup)
        : model_(model), layup_(layup), names_(names_of(layup)), sections_(layup) {
        const auto points = static_cast<Index>(model.stiffness.size());
        const Resultants none = Resultants::Zero(6, points);
        for (const std::string& name : names_) {
            forces_.parts.push_back({name, none, none, none});
        }
    }

    FreeForces run() {
        const Eigen::MatrixXd to_points =
            geometry_to_points(model_.mesh, model_.reference.rule.point);
        Index point = 0;
        for (int quad = 0; quad < static_cast<int>(model_.mesh.quads.size()); ++quad) {
            const Eigen::Matrix2Xd at = quad_points(model_.mesh, quad, to_points);
            const int stack = common_stack(at, model_.reference.q, sections_);
            for (Index c = 0; c < at.cols(); ++c, ++point) {
                const int here = stack >= 0 ? stack : sections_.stack_index(at.col(c));
                add_point(sections_.stacks()[static_cast<std::size_t>(here)], at(0, c), point);
            }
        }
        find_common();
        return std::move(forces_);
    }

  private:
    void add_point(const StackKey& key, double x, Index point) {
        double z = 0;
        visit_stack(layup_, key, core_thickness(layup_, x), [&](const StackPart<double>& part) {
            const auto found = std::find(names_.begin(), names_.end(), name_of(part));
            PartForces& to = forces_.parts[static_cast<std::size_t>(found - names_.begin())];
            if (part.kind == PartKind::layer) {
                for (const Lamina<double>& ply : part.item->plies) {
                    add_ply(ply, z, ply.thickness, point, to);
                    z += ply.thickness;
                }
                return;
            }
            const Lamina<double>& ply = part.kind == PartKind::edge     ? layup_.edge
                                        : part.kind == PartKind::flange ? layup_.flange
                                                                        : core(key);
            add_ply(ply, z, part.thickness, point, to);
            z += part.thickness;
        });
    }

    [[nodiscard]] const Lamina<double>& core(const StackKey& key) const {
        return layup_.core_variants[key.back()];
    }

    void find_common() {
        const Resultants zero = forces_.at(0);
        const Resultants kelvin = forces_.at(1) - zero;
        double area = 0;
        Index point = 0;
        for (int quad = 0; quad < static_cast<int>(model_.mesh.quads.size()); ++quad) {
            const ElementTables tables =
                element_tables(model_.reference, element_nodes(model_, quad));
            for (Index c = 0; c < tables.weight.size(); ++c, ++point) {
                const Eigen::Matrix3d flat =
                    model_.stiffness[static_cast<std::size_t>(point)].A.inverse();
                const auto mean = [&](const Resultants& of) {
                    const Eigen::Vector3d e = flat * of.col(point).head<3>();
                    return tables.weight(c) * (e.x() + e.y()) / 2;
                };
                forces_.common_at_zero += mean(zero);
                forces_.common_per_kelvin += mean(kelvin);
                area += tables.weight(c);
            }
        }
        forces_.common_at_zero /= area;
        forces_.common_per_kelvin /= area;
    }

    const PlateModel& model_;
    const Layup<double>& layup_;
    std::vector<std::string> names_;
    SectionCache sections_;
    FreeForces forces_;
};

} // namespace

Resultants FreeForces::at(double celsius) const {
    Resultants sum = parts.front().at_zero + celsius * parts.front().per_kelvin;
    for (std::size_t i = 1; i < parts.size(); ++i) {
        sum += parts[i].at_zero + celsius * parts[i].per_kelvin;
    }
    return sum;
}

FreeForces free_forces(const PlateModel& model, const Layup<double>& layup) {
    return Summation(model, layup).run();
}

Eigen::VectorXd nodal_forces(const PlateModel& model, const Resultants& resultants) {
    Eigen::VectorXd force = Eigen::VectorXd::Zero(model.unknowns());
    const int m = model.reference.m;
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        add_quad_forces(model, quad, resultants.middleCols(Index(quad) * m, m), force);
    }
    return force;
}

} // namespace vrid
