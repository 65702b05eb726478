#include "solver/response/section_weights.hpp"

#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

using AllStrains = Eigen::Matrix<double, 8, 1>;
using Vector6 = Eigen::Matrix<double, 6, 1>;

// a^T M b for a symmetric M: what stands with xx yy ss xy xs ys.
Vector6 symmetric(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
    Vector6 w;
    w << a(0) * b(0), a(1) * b(1), a(2) * b(2), a(0) * b(1) + a(1) * b(0),
        a(0) * b(2) + a(2) * b(0), a(1) * b(2) + a(2) * b(1);
    return w;
}

// Calls visit(row of the weights' first term, weight of the point, point) and adds for every term.
template <class Sample, class Weights>
void add_terms(const PlateModel& model, const std::vector<EnergyTerm>& terms, int threads,
               SectionWeights& weights, const Sample& sample, const Weights& of) {
    const int m = model.reference.m;
    for_each_in_parallel(static_cast<int>(model.mesh.quads.size()), threads, [&](int quad) {
        const ElementTables tables = quad_tables(model, quad);
        for (const EnergyTerm& term : terms) {
            const VectorXd left = quad_part(model, quad, term.left);
            if (left.isZero(0)) {
                continue;
            }
            const auto a = sample(quad, tables, left);
            const auto b =
                term.is_square() ? a : sample(quad, tables, quad_part(model, quad, term.right));
            for (Index c = 0; c < m; ++c) {
                const Index row = section_terms * (Index(quad) * m + c);
                weights.weight.col(term.number).segment<section_terms>(row) +=
                    term.factor * tables.weight(c) * of(a.col(c), b.col(c));
            }
        }
    });
}

// The sample of a motion that energies go by.
struct StrainsOf {
    const ReferenceElement& reference;
    auto operator()(int, const ElementTables& tables, const VectorXd& u) const {
        return element_strains(reference, tables, u);
    }
};

// u and w at the points of a quad become the motion along the tangent and the normal.
void turn_along_surface(const PlateModel& model, int quad,
                        Eigen::Matrix<double, 5, Eigen::Dynamic>& motion) {
    const Eigen::Matrix2Xd X = element_nodes(model, quad);
    const VectorXd x = model.reference.N * X.row(0).transpose();
    for (Index c = 0; c < motion.cols(); ++c) {
        const RestFrame frame = model.rest->frame(x(c), X.row(0).mean());
        const double u = motion(0, c);
        const double w = motion(2, c);
        motion(0, c) = frame.C * u + frame.S * w;
        motion(2, c) = -frame.S * u + frame.C * w;
    }
}

} // namespace

SectionTerms energy_weights(const AllStrains& strain, const AllStrains& other) {
    const Eigen::Vector3d e = strain.head<3>();
    const Eigen::Vector3d k = strain.segment<3>(3);
    const Eigen::Vector3d e2 = other.head<3>();
    const Eigen::Vector3d k2 = other.segment<3>(3);
    SectionTerms w = SectionTerms::Zero();
    w.segment<6>(0) = symmetric(e, e2);
    w.segment<6>(6) = symmetric(e, k2) + symmetric(k, e2);
    w.segment<6>(12) = symmetric(k, k2);
    w(18) = strain(6) * other(6);
    w(19) = strain(7) * other(7);
    w(20) = strain(6) * other(7) + strain(7) * other(6);
    return w;
}

SectionTerms inertia_weights(const Eigen::Matrix<double, 5, 1>& motion,
                             const Eigen::Matrix<double, 5, 1>& other) {
    SectionTerms w = SectionTerms::Zero();
    w(21) = motion.head<3>().dot(other.head<3>());
    w(22) = motion.head<2>().dot(other.tail<2>()) + motion.tail<2>().dot(other.head<2>());
    w(23) = motion.tail<2>().dot(other.tail<2>());
    return w;
}

SectionWeights model_places(const PlateModel& model, SectionCache& sections, Index numbers) {
    SectionWeights weights;
    const Index m = model.reference.m;
    VectorXd area; // at the points of a quad
    const auto add = [&](Index point, const Vector2d& at, int stack) {
        if (point % m == 0) {
            const Eigen::Matrix2Xd X = element_nodes(model, static_cast<int>(point / m));
            area = element_tables(model.reference, X).weight;
        }
        weights.places.push_back({stack, at.x(), area(point % m), at.y()});
    };
    visit_points(model.mesh, model.reference, sections, add);
    weights.stacks = sections.stacks();
    weights.weight =
        MatrixXd::Zero(section_terms * static_cast<Index>(weights.places.size()), numbers);
    return weights;
}

void add_energy(const PlateModel& model, const std::vector<EnergyTerm>& terms, int threads,
                SectionWeights& weights) {
    add_terms(model, terms, threads, weights, StrainsOf{model.reference}, energy_weights);
}

void add_free_work(const PlateModel& model, const std::vector<EnergyTerm>& terms, int threads,
                   SectionWeights& weights) {
    const auto of = [](const AllStrains& strain, const AllStrains&) {
        SectionTerms w = SectionTerms::Zero();
        w.segment<6>(first_free_term) = strain.head<6>();
        return w;
    };
    add_terms(model, terms, threads, weights, StrainsOf{model.reference}, of);
}

void add_inertia(const PlateModel& model, const std::vector<EnergyTerm>& terms, int threads,
                 SectionWeights& weights) {
    add_terms(
        model, terms, threads, weights,
        [&](int quad, const ElementTables&, const VectorXd& u) {
            const Eigen::Map<const Eigen::MatrixXd> motion(u.data(), unknowns_per_node,
                                                           model.reference.n);
            Eigen::Matrix<double, 5, Eigen::Dynamic> at = motion * model.reference.N.transpose();
            if (model.rest) {
                turn_along_surface(model, quad, at);
            }
            return at;
        },
        inertia_weights);
}

} // namespace vrid
