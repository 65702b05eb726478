#include "solver/response/shape_gradient.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/element/director_shell.hpp"
#include "solver/element/plate_shape.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

// Of one quad: 2 n x numbers.
MatrixXd quad_gradient(const PlateModel& model, int quad, const std::vector<EnergyTerm>& energy,
                       const std::vector<EnergyTerm>& inertia, Index numbers) {
    const ReferenceElement& r = model.reference;
    const Eigen::Matrix2Xd X = element_nodes(model, quad);
    const ElementTables tables = element_tables(r, X);
    const std::span<const PlateStiffness> stiffness = quad_sections(model, quad);
    MatrixXd gradient = MatrixXd::Zero(2 * r.n, numbers);
    const auto add = [&](const EnergyTerm& term, const Eigen::Matrix2Xd& own) {
        gradient.col(term.number) += term.factor * Eigen::Map<const VectorXd>(own.data(), 2 * r.n);
    };
    for (const EnergyTerm& term : energy) {
        const VectorXd left = quad_part(model, quad, term.left);
        if (!left.isZero(0)) { // much of a board does not move
            add(term, element_shape_gradient(r, tables, X, stiffness, left,
                                             quad_part(model, quad, term.other())));
        }
    }
    const Eigen::Matrix3Xd mass = model.inertia.middleCols(Index(quad) * r.m, r.m);
    for (const EnergyTerm& term : inertia) {
        add(term, element_mass_gradient(r, tables, mass, quad_part(model, quad, term.left),
                                        quad_part(model, quad, term.other())));
    }
    return gradient;
}

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

// A quad of a board on its rest shape and the motions that its terms go by.
class QuadTerms {
  public:
    QuadTerms(const PlateModel& model, int quad, const std::vector<EnergyTerm>& energy,
              const std::vector<EnergyTerm>& inertia, Index numbers)
        : model_(model), quad_(quad), numbers_(numbers) {
        motions_.resize(unknowns_per_node * model.reference.n,
                        2 * static_cast<Index>(energy.size()));
        Index motions = 0;
        for (const EnergyTerm& term : energy) {
            motions_.col(motions) = quad_part(model, quad, term.left);
            if (motions_.col(motions).isZero(0)) { // much of a board does not move
                continue;
            }
            const Index left = motions++;
            if (!term.is_square()) {
                motions_.col(motions++) = quad_part(model, quad, term.other());
            }
            energy_.push_back({term.number, term.factor, left, motions - 1});
        }
        motions_.conservativeResize(Eigen::NoChange, motions);
        for (const EnergyTerm& term : inertia) {
            inertia_.push_back({term.number, term.factor, quad_part(model, quad, term.left),
                                quad_part(model, quad, term.other())});
        }
    }

    // Of each number, the quad's nodes at X.
    [[nodiscard]] VectorXd sums(const Eigen::Matrix2Xd& X) const {
        const std::span<const PlateStiffness> stiffness = quad_sections(model_, quad_);
        const ElementTables tables = element_tables(model_.reference, X, model_.rest.get());
        VectorXd sums = VectorXd::Zero(numbers_);
        const MatrixXd strains = strains_of_all(tables);
        const auto strain = [&](Index motion) {
            return Eigen::Map<const Eigen::Matrix<double, 8, Eigen::Dynamic>>(
                strains.col(motion).data(), 8, model_.reference.m);
        };
        for (const Worked& worked : energy_) {
            const auto resultant = element_resultants(stiffness, strain(worked.right));
            sums(worked.number) += worked.factor * strain(worked.left)
                                                       .cwiseProduct(resultant)
                                                       .colwise()
                                                       .sum()
                                                       .dot(tables.weight.transpose());
        }
        if (!inertia_.empty()) {
            const auto moment = quad_moments(model_, quad_, X);
            for (const Own& own : inertia_) {
                sums(own.number) += own.factor * mass_product(moment, own.left, own.right);
            }
        }
        return sums;
    }

    // By the places of its nodes, differenced: 2 n x numbers.
    [[nodiscard]] MatrixXd differences() const {
        constexpr double share = 1e-3; // of the shortest side: the error goes with its square
        Eigen::Matrix2Xd X = element_nodes(model_, quad_);
        MatrixXd gradient = MatrixXd::Zero(X.size(), numbers_);
        if (energy_.empty() && inertia_.empty()) {
            return gradient;
        }
        const int p = model_.reference.p;
        const std::array<Index, 4> corner{0, p, Index(p) * (p + 2), Index(p) * (p + 1)};
        double shortest = HUGE_VAL;
        for (std::size_t k = 0; k < 4; ++k) {
            shortest = std::min(shortest, (X.col(corner[k]) - X.col(corner[(k + 1) % 4])).norm());
        }
        const double step = share * shortest;
        for (Index i = 0; i < X.size(); ++i) {
            double& place = X(i % 2, i / 2);
            const double here = place;
            place = here + step;
            const VectorXd ahead = sums(X);
            place = here - step;
            gradient.row(i) = (ahead - sums(X)).transpose() / (2 * step);
            place = here;
        }
        return gradient;
    }

  private:
    // 8 m x motions; one product of matrices takes a quarter of the time of one a motion.
    [[nodiscard]] MatrixXd strains_of_all(const ElementTables& tables) const {
        if (tables.strain.size() > 0) {
            return tables.strain * motions_;
        }
        MatrixXd all(Index(8) * model_.reference.m, motions_.cols()); // a value made the board flat
        for (Index motion = 0; motion < motions_.cols(); ++motion) {
            all.col(motion) =
                element_strains(model_.reference, tables, motions_.col(motion)).reshaped();
        }
        return all;
    }

    struct Worked {
        Index number;
        double factor;
        Index left, right; // columns of motions_
    };
    struct Own {
        Index number;
        double factor;
        VectorXd left, right;
    };
    const PlateModel& model_;
    int quad_;
    Index numbers_;
    MatrixXd motions_;
    std::vector<Worked> energy_;
    std::vector<Own> inertia_;
};

} // namespace

NodeGradient node_gradient(const PlateModel& model, const std::vector<EnergyTerm>& energy,
                           const std::vector<EnergyTerm>& inertia, Index numbers, int threads) {
    const auto quads = static_cast<int>(model.mesh.quads.size());
    std::vector<MatrixXd> parts(model.mesh.quads.size());
    for_each_in_parallel(quads, threads, [&](int quad) {
        parts[static_cast<std::size_t>(quad)] =
            model.rest ? QuadTerms(model, quad, energy, inertia, numbers).differences()
                       : quad_gradient(model, quad, energy, inertia, numbers);
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

VectorXd term_sums(const PlateModel& model, const std::vector<int>& quads,
                   const std::vector<EnergyTerm>& energy, const std::vector<EnergyTerm>& inertia,
                   Index numbers, int threads) {
    std::vector<VectorXd> parts(quads.size());
    for_each_in_parallel(static_cast<int>(parts.size()), threads, [&](int i) {
        const int quad = quads[static_cast<std::size_t>(i)];
        parts[static_cast<std::size_t>(i)] =
            QuadTerms(model, quad, energy, inertia, numbers).sums(element_nodes(model, quad));
    });
    VectorXd sums = VectorXd::Zero(numbers);
    for (const VectorXd& part : parts) {
        sums += part;
    }
    return sums;
}

} // namespace vrid
