#include "solver/cooling/mesh_place.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

#include "solver/element/director_shell.hpp"
#include "solver/element/quadrature.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

struct Natural {
    Vector2d at{0, 0};   // xi, eta
    double distance = 0; // from the point looked for [m]
};

Eigen::VectorXd one(double value) {
    return Eigen::VectorXd::Constant(1, value);
}

// Newton's steps on the curved quad, kept inside it.
Natural natural_place(const PlateModel& model, int quad, const Vector2d& point) {
    const Eigen::Matrix2Xd X = element_nodes(model, quad);
    const Eigen::VectorXd& nodes = model.reference.nodes;
    Natural found;
    for (int step = 0; step < 20; ++step) {
        const Eigen::MatrixXd xi = lagrange(nodes, one(found.at.x()));
        const Eigen::MatrixXd eta = lagrange(nodes, one(found.at.y()));
        const Vector2d off = point - X * tensor(xi, eta).transpose();
        found.distance = off.norm();
        Eigen::Matrix2d slope;
        slope.col(0) = X * tensor(lagrange_slope(nodes, one(found.at.x())), eta).transpose();
        slope.col(1) = X * tensor(xi, lagrange_slope(nodes, one(found.at.y()))).transpose();
        const Vector2d next = (found.at + slope.inverse() * off).cwiseMax(-1).cwiseMin(1);
        const bool still = (next - found.at).norm() < 1e-14;
        found.at = next;
        if (still) {
            break;
        }
    }
    return found;
}

} // namespace

MeshPlaces::MeshPlaces(const PlateModel& model)
    : model_(&model), boxes_(4, static_cast<Index>(model.mesh.quads.size())) {
    for (Index quad = 0; quad < boxes_.cols(); ++quad) {
        const Eigen::Matrix2Xd X = element_nodes(model, static_cast<int>(quad));
        boxes_.col(quad) << X.rowwise().minCoeff(), X.rowwise().maxCoeff();
    }
}

MeshPlace MeshPlaces::at(const Vector2d& point) const {
    constexpr double inside = 1e-12; // [m]
    MeshPlace best;
    double nearest = HUGE_VAL;
    const auto look = [&](int quad) {
        const Natural found = natural_place(*model_, quad, point);
        if (found.distance < nearest) {
            nearest = found.distance;
            best.quad = quad;
            best.natural = found.at;
        }
    };
    const auto apart = [&](Index quad) {
        const Vector2d below = boxes_.col(quad).head<2>() - point;
        const Vector2d above = point - boxes_.col(quad).tail<2>();
        return below.cwiseMax(above).cwiseMax(0).norm();
    };
    for (Index quad = 0; quad < boxes_.cols() && nearest >= inside; ++quad) {
        if (apart(quad) == 0) {
            look(static_cast<int>(quad));
        }
    }
    if (nearest >= inside) { // beside the mesh, or in the bulge of a curved side
        std::vector<std::pair<double, int>> quads;
        for (Index quad = 0; quad < boxes_.cols(); ++quad) {
            quads.emplace_back(apart(quad), static_cast<int>(quad));
        }
        std::ranges::sort(quads);
        for (const auto& [least, quad] : quads) {
            if (least >= nearest) {
                break; // no nearer one can follow
            }
            look(quad);
        }
    }
    const VectorXd& nodes = model_->reference.nodes;
    best.shape =
        tensor(lagrange(nodes, one(best.natural.x())), lagrange(nodes, one(best.natural.y())))
            .transpose();
    return best;
}

Eigen::Matrix<double, 8, Eigen::Dynamic> strains_at(const PlateModel& model, const MeshPlace& place,
                                                    const Eigen::MatrixXd& motions) {
    // tables come on the grid of two points a direction: (xi, eta) is its third
    constexpr Index third = 2;
    const ReferenceElement reference =
        reference_element(model.reference.p, Eigen::Vector2d(place.natural.x(), place.natural.y()));
    const ElementTables tables =
        element_tables(reference, element_nodes(model, place.quad), model.rest.get());
    Eigen::Matrix<double, 8, Eigen::Dynamic> all(8, motions.cols());
    for (Index c = 0; c < motions.cols(); ++c) {
        all.col(c) =
            element_strains(reference, tables, quad_part(model, place.quad, motions.col(c)))
                .col(third);
    }
    return all;
}

void add_rise(const PlateModel& model, const MeshPlace& place, double factor,
              Eigen::Ref<Eigen::VectorXd> load) {
    const std::vector<int>& nodes =
        model.numbering.quad_nodes[static_cast<std::size_t>(place.quad)];
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        load(Index(unknowns_per_node) * nodes[i] + comp_w) +=
            factor * place.shape(static_cast<Index>(i));
    }
}

double rise_at(const PlateModel& model, const MeshPlace& place,
               const Eigen::Ref<const Eigen::VectorXd>& u) {
    const std::vector<int>& nodes =
        model.numbering.quad_nodes[static_cast<std::size_t>(place.quad)];
    double rise = 0;
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        rise +=
            place.shape(static_cast<Index>(i)) * u(Index(unknowns_per_node) * nodes[i] + comp_w);
    }
    return rise;
}

} // namespace vrid
