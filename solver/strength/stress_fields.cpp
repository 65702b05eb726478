#include "solver/strength/stress_fields.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <tuple>

#include "solver/element/director_shell.hpp"
#include "solver/strength/point_index.hpp"

namespace vrid {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Eigen::VectorXd even_points(int n) {
    return Eigen::VectorXd::LinSpaced(n, -1, 1);
}

StrainField strains_at(const Mesh& mesh, const Numbering& numbering, const RestShape* rest,
                       const Eigen::VectorXd& u, const Eigen::VectorXd& nodes) {
    const ReferenceElement reference = reference_element(numbering.degree, nodes);
    StrainField field;
    field.reserve(mesh.quads.size());
    for (std::size_t quad = 0; quad < mesh.quads.size(); ++quad) {
        const std::vector<int>& of = numbering.quad_nodes[quad];
        Eigen::Matrix2Xd X(2, static_cast<Index>(of.size()));
        Eigen::VectorXd part(unknowns_per_node * X.cols());
        for (Index i = 0; i < X.cols(); ++i) {
            const int node = of[static_cast<std::size_t>(i)];
            X.col(i) = numbering.position.col(node);
            part.segment<unknowns_per_node>(unknowns_per_node * i) =
                u.segment<unknowns_per_node>(Index(unknowns_per_node) * node);
        }
        field.push_back(element_strains(reference, element_tables(reference, X, rest), part));
    }
    return field;
}

// The value of largest amount that a + b zeta + c zeta^2 takes in [0, t].
double peak(double a, double b, double c, double t) {
    const auto at = [&](double zeta) { return a + zeta * (b + zeta * c); };
    double best = at(0);
    const double turn = c != 0 ? -b / (2 * c) : -1;
    for (const double zeta : {t, turn > 0 && turn < t ? turn : t}) {
        best = std::abs(at(zeta)) > std::abs(best) ? at(zeta) : best;
    }
    return best;
}

Eigen::Matrix<double, 8, 1> ply_values(const PointLaminate& point, std::size_t i,
                                       const PointLoad& load, const PointResidual& before) {
    const JudgedPly& ply = *point.plies[i];
    Eigen::Matrix<double, 8, 1> values;
    for (const int end : {0, 1}) {
        const double z = point.z[i + static_cast<std::size_t>(end)];
        PlyStress stress = ply_stress(ply, load.e, load.k, z);
        if (!before.free.empty()) {
            stress += before.share(i) * ply_stress(ply, before.e, before.k, z, before.free[i]);
        }
        for (const int k : {0, 1, 2}) {
            values(2 * k + end) = stress(k);
        }
    }
    const ShearFlow& flow = point.flow[i];
    const Vector2d a = ply_shear(ply, flow.a.cwiseProduct(load.Q));
    const Vector2d b = ply_shear(ply, flow.b.cwiseProduct(load.Q));
    const Vector2d c = ply_shear(ply, flow.c.cwiseProduct(load.Q));
    for (const int k : {0, 1}) {
        values(6 + k) = peak(a(k), b(k), c(k), point.laminae[i].thickness);
    }
    return values;
}

PointLoad load_of(const Eigen::Matrix<double, 8, 1>& strain, const PointLaminate& point,
                  double factor) {
    return {factor * strain.head<3>(), factor * strain.segment<3>(3),
            factor * (point.section.S * strain.tail<2>())};
}

StressValues empty_values(std::size_t plies, std::size_t layers, Index points) {
    StressValues values;
    values.stress.assign(plies, Eigen::MatrixXd::Constant(8, points, nan));
    values.index.assign(layers, Eigen::VectorXd::Constant(points, nan));
    values.mode.assign(layers, Eigen::VectorXd::Zero(points));
    return values;
}

} // namespace

PlottedStrain plotted_strain(const Mesh& mesh, const Numbering& numbering, const RestShape* rest,
                             const Eigen::VectorXd& u, int n) {
    return {strains_at(mesh, numbering, rest, u, even_points(n)),
            strains_at(mesh, numbering, rest, u, strain_nodes())};
}

StressPlot::StressPlot(const Layup<double>& layup, const JudgedLayup& judged, const Mesh& mesh,
                       int n)
    : layup_(layup), judged_(judged), n_(n), sections_(layup), maker_(mesh, sections_) {
    name_plies();
    place_points(mesh);
}

void StressPlot::name_plies() {
    layer_of_.assign(judged_.layers.size(), -1);
    ply_of_.resize(judged_.layers.size());
    for (std::size_t i = 0; i < judged_.items.size(); ++i) {
        if (!judged_.items[i].empty()) {
            add_name(judged_.items[i].front().layer, judged_.items[i].size());
        }
    }
    for (const JudgedPly& core : judged_.core_variants) {
        add_name(core.layer, 1);
    }
    for (const JudgedPly* metal : {&judged_.edge, &judged_.flange}) {
        if (!metal->parts.empty()) {
            add_name(metal->layer, 1);
        }
    }
}

// A layer's mirrored copy has its name and stands elsewhere: both are one field.
void StressPlot::add_name(int layer, std::size_t plies) {
    const auto place = [](std::vector<std::string>& names, const std::string& name) {
        const auto found = std::ranges::find(names, name);
        const auto at = static_cast<int>(found - names.begin());
        if (found == names.end()) {
            names.push_back(name);
        }
        return at;
    };
    const auto which = static_cast<std::size_t>(layer);
    const std::string& name = judged_.layers[which];
    layer_of_[which] = place(layers_, name);
    ply_of_[which].clear();
    for (std::size_t k = 0; k < plies; ++k) {
        ply_of_[which].push_back(
            place(plies_, plies > 1 ? name + " ply " + std::to_string(k + 1) : name));
    }
}

void StressPlot::place_points(const Mesh& mesh) {
    const Index per_quad = Index(n_) * n_;
    constexpr double within = 1 - 1e-3; // of the quad: sides belong to no one
    const Eigen::MatrixXd to_points = geometry_to_points(mesh, even_points(n_));
    const Eigen::MatrixXd to_inner = geometry_to_points(mesh, within * even_points(n_));
    position_.resize(2, per_quad * static_cast<Index>(mesh.quads.size()));
    std::map<std::tuple<std::int64_t, std::int64_t, int>, int> known;
    for (int quad = 0; quad < static_cast<int>(mesh.quads.size()); ++quad) {
        const Eigen::Matrix2Xd outer = quad_points(mesh, quad, to_points);
        const Eigen::Matrix2Xd inner = quad_points(mesh, quad, to_inner);
        position_.middleCols(quad * per_quad, per_quad) = outer;
        const int whole = common_stack(inner, n_, sections_);
        for (Index c = 0; c < per_quad; ++c) {
            const int stack = whole >= 0 ? whole : sections_.stack_index(Vector2d(inner.col(c)));
            stack_.push_back(stack);
            constexpr double same = 1e-6; // [m]
            const auto [place, fresh] = known.try_emplace(
                {std::llround(outer(0, c) / same), std::llround(outer(1, c) / same), stack},
                static_cast<int>(discs_.size()));
            if (fresh) {
                if (auto disc = maker_.at(inner.col(c), stack)) {
                    discs_.push_back(std::move(*disc));
                } else {
                    place->second = -1;
                }
            }
            disc_of_.push_back(place->second);
        }
    }
}

void StressPlot::fill(const PointLaminate& point, const PointLoad& load,
                      const PointResidual& before, Criterion criterion, Index column,
                      StressValues& values) const {
    for (std::size_t i = 0; i < point.plies.size(); ++i) {
        const JudgedPly& ply = *point.plies[i];
        const auto& of_layer = ply_of_[static_cast<std::size_t>(ply.layer)];
        const int which = of_layer[static_cast<std::size_t>(ply.number - 1)];
        values.stress[static_cast<std::size_t>(which)].col(column) =
            ply_values(point, i, load, before);
    }
    visit_indices(point, load, before, criterion, [&](const PointIndex& one) {
        const auto layer = static_cast<std::size_t>(
            layer_of_[static_cast<std::size_t>(point.plies[one.ply]->layer)]);
        double& index = values.index[layer](column);
        if (!(index >= one.index)) { // nan too
            index = one.index;
            values.mode[layer](column) = mode_code(one.mode);
        }
    });
}

void StressPlot::find_lowest(const PointLaminate& point, const PointLoad& load,
                             const PointResidual& before, Criterion criterion,
                             const std::vector<int>& signs, Index column,
                             StressFields& fields) const {
    for (const int sign : signs) {
        visit_failures(
            point, {sign * load.e, sign * load.k, sign * load.Q}, before, criterion,
            [&](const PointFailure& failure) {
                double& lowest = fields.lowest(column);
                if (!(lowest <= failure.factor)) { // nan too
                    lowest = failure.factor;
                    fields.lowest_mode(column) = mode_code(failure.mode);
                    fields.lowest_layer(column) =
                        1 + layer_of_[static_cast<std::size_t>(point.plies[failure.ply]->layer)];
                }
            });
    }
}

StressFields StressPlot::fields(const StressState& state, Criterion criterion) {
    const Index points = position_.cols();
    const Index per_quad = Index(n_) * n_;
    StressFields all{empty_values(plies_.size(), layers_.size(), points),
                     empty_values(plies_.size(), layers_.size(), points),
                     Eigen::VectorXd::Constant(points, nan), Eigen::VectorXd::Zero(points),
                     Eigen::VectorXd::Zero(points)};
    const std::vector<char> held =
        state.held.empty() ? std::vector<char>(state.strain.for_means.size(), 0) : state.held;
    for (Index c = 0; c < points; ++c) {
        const auto at = static_cast<std::size_t>(c);
        const Vector2d place = position_.col(c);
        const PointLaminate point = point_laminate(layup_, judged_, key(stack_[at]), place);
        const PointResidual before = state.residual_at_point
                                         ? state.residual_at_point(c, stack_[at], place, point)
                                         : PointResidual{};
        fill(point,
             load_of(
                 state.strain.at_points[at / static_cast<std::size_t>(per_quad)].col(c % per_quad),
                 point, state.factor),
             before, criterion, c, all.raw);
        if (disc_of_[at] < 0) {
            continue;
        }
        const Disc& disc = discs_[static_cast<std::size_t>(disc_of_[at])];
        if (const auto mean = mean_strain(disc, state.strain.for_means, held)) {
            const PointResidual over_disc =
                state.residual ? state.residual(disc, point) : PointResidual{};
            fill(point, load_of(*mean, point, state.factor), over_disc, criterion, c, all.averaged);
            find_lowest(point, load_of(*mean, point, 1), over_disc, criterion, state.signs, c, all);
        }
    }
    return all;
}

} // namespace vrid
