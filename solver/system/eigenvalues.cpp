#include "solver/system/eigenvalues.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <Eigen/QR>

#include "mesh/board/error.hpp"
#include "solver/system/block_krylov.hpp"
#include "solver/system/dense_solve.hpp"
#include "solver/system/element_dofs.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/mass_matrix.hpp"

namespace vrid {

MatrixXd rigid_body_motions(const PlateModel& model) {
    MatrixXd R = MatrixXd::Zero(model.unknowns(), 6);
    const Eigen::Vector2d middle = model.numbering.position.rowwise().mean();
    for (int node = 0; node < model.numbering.nodes; ++node) {
        Eigen::Vector2d at = model.numbering.position.col(node) - middle;
        auto rows = R.middleRows<unknowns_per_node>(Index(unknowns_per_node) * node);
        RestFrame frame;
        if (model.rest) {
            const double x = model.numbering.position(0, node);
            frame = model.rest->frame(x);
            at.x() = model.rest->place(x);
            rows(0, 4) = rows(1, 5) = -model.rest->z(x);
        }
        rows(0, 0) = rows(1, 1) = rows(2, 3) = 1;
        rows(0, 2) = -at.y();
        rows(1, 2) = at.x();
        rows(4, 2) = -frame.S;
        rows(2, 4) = at.x();
        rows(3, 4) = -1;
        rows(2, 5) = at.y();
        rows(4, 5) = -frame.C;
    }
    return R;
}

namespace {

/// The rigid motions that move no fixed unknown: the null space of their fixed rows.
MatrixXd free_rigid_motions(const PlateModel& model, const std::vector<char>& fixed) {
    const MatrixXd R = rigid_body_motions(model);
    MatrixXd held = MatrixXd::Zero(R.cols(), R.cols());
    for (Index k = 0; k < R.rows(); ++k) {
        if (fixed[static_cast<std::size_t>(k)] != 0) {
            held += R.row(k).transpose() * R.row(k);
        }
    }
    const SymmetricEigen eigen = symmetric_eigen(held);
    // a motion is held if a fixed unknown moves by more than rounding does
    const double zero = 1e-12 * std::max(1.0, eigen.values.maxCoeff());
    const auto count = static_cast<Index>((eigen.values.array() <= zero).count());
    return R * eigen.vectors.leftCols(count);
}

/// Motions taken out, orthonormal in M.
struct TakenOut {
    MatrixXd motion, force; // force: M times motion

    void add(const MassMatrix& mass, VectorXd x) {
        from(x);
        const VectorXd Mx = times(mass, x);
        const double norm = std::sqrt(x.dot(Mx));
        if (!(norm > 0)) { // a strip a hair wide: what is left of a motion is rounding
            throw SolveError("modes", "the board is too thin across for double precision to tell "
                                      "its rigid motions apart");
        }
        motion.conservativeResize(x.size(), motion.cols() + 1);
        force.conservativeResize(x.size(), force.cols() + 1);
        motion.rightCols(1) = x / norm;
        force.rightCols(1) = Mx / norm;
    }
    template <class Columns> void from(Columns& x) const {
        for (int round = 0; round < 2 && motion.cols() > 0; ++round) { // twice: against rounding
            x -= motion * (force.transpose() * x);
        }
    }
};

TakenOut taken_out(const MassMatrix& mass, const MatrixXd& motions) {
    TakenOut all;
    for (Index k = 0; k < motions.cols(); ++k) {
        all.add(mass, motions.col(k));
    }
    return all;
}

/// A bending or twisting w = x^i y^j with the rotations that keep a plate's normals, in
/// coordinates over half the model's length.
VectorXd monomial(const PlateModel& model, int i, int j) {
    const auto& at = model.numbering.position;
    const Eigen::Vector2d middle = at.rowwise().mean();
    const double half = (at.row(0).maxCoeff() - at.row(0).minCoeff()) / 2;
    const auto power = [](double base, int n) { return n < 0 ? 0.0 : std::pow(base, n); };
    VectorXd shape = VectorXd::Zero(model.unknowns());
    for (Index node = 0; node < model.numbering.nodes; ++node) {
        const Eigen::Vector2d x = (at.col(node) - middle) / half;
        const Index row = unknowns_per_node * node;
        shape(row + 2) = power(x(0), i) * power(x(1), j);
        shape(row + 3) = -i * power(x(0), i - 1) * power(x(1), j) / half;
        shape(row + 4) = -j * power(x(0), i) * power(x(1), j - 1) / half;
    }
    return shape;
}

constexpr Index without_symmetry =
    4;                     // columns of the start that no symmetry of the board keeps out
constexpr Index spare = 2; // beside the wanted ones: they speed the others up

/// What is known, or bending and twisting as of a beam; and some columns of everything.
MatrixXd start_block(const PlateModel& model, const ModeOptions& options, int count) {
    const Index n = model.unknowns();
    MatrixXd known = options.start.leftCols(std::min<Index>(count + spare, options.start.cols()));
    if (known.cols() == 0) {
        const std::array<std::array<int, 2>, 8> shapes{
            {{2, 0}, {1, 1}, {3, 0}, {2, 1}, {4, 0}, {3, 1}, {0, 2}, {5, 0}}};
        known.resize(n, std::min<Index>(count + spare, static_cast<Index>(shapes.size())));
        for (Index k = 0; k < known.cols(); ++k) {
            const auto [i, j] = shapes[static_cast<std::size_t>(k)];
            known.col(k) = monomial(model, i, j);
        }
    }
    MatrixXd start(n, known.cols() + without_symmetry);
    start.leftCols(known.cols()) = known;
    for (Index c = 0; c < without_symmetry; ++c) { // the same in every run
        for (Index k = 0; k < n; ++k) {
            start(k, known.cols() + c) =
                std::sin((12.9898 + 3.7 * static_cast<double>(c)) * static_cast<double>(k) + 1);
        }
    }
    return start;
}

/// Unknowns that are free, of the fronts that are eliminated last.
std::vector<Index> last_unknowns(const EliminationTree& tree, const std::vector<char>& fixed) {
    std::vector<Index> all;
    for (const EliminationFront& front : tree.fronts) {
        for (const int node : front.parent < 0 ? front.pivots : std::vector<int>{}) {
            for (Index k = node_dofs * Index(node); k < node_dofs * (Index(node) + 1); ++k) {
                if (fixed[static_cast<std::size_t>(k)] == 0) {
                    all.push_back(k);
                }
            }
        }
    }
    return all;
}

std::vector<Index> free_unknowns(const std::vector<char>& fixed) {
    std::vector<Index> all;
    for (std::size_t k = 0; k < fixed.size(); ++k) {
        if (fixed[k] == 0) {
            all.push_back(static_cast<Index>(k));
        }
    }
    return all;
}

/// Of the unknowns `places` those whose motions tell the rigid motions apart best, as many as there
/// are motions; empty where they hardly do.
std::vector<Index> telling_apart(const MatrixXd& rigid, const std::vector<Index>& places) {
    constexpr double hardly = 1e-6; // supports so near each other would lose half of all digits
    const Index count = rigid.cols();
    if (static_cast<Index>(places.size()) < count || !rigid.allFinite()) {
        return {};
    }
    const Eigen::ColPivHouseholderQR<MatrixXd> qr(rigid(places, Eigen::all).transpose());
    const auto pivot = qr.matrixR().diagonal().cwiseAbs();
    if (!(pivot(count - 1) > hardly * pivot(0))) {
        return {};
    }
    std::vector<Index> chosen;
    for (Index c = 0; c < count; ++c) {
        chosen.push_back(places[static_cast<std::size_t>(qr.colsPermutation().indices()(c))]);
    }
    return chosen;
}

} // namespace

std::vector<char> determinate_supports(const PlateModel& model, const std::vector<char>& fixed,
                                       const EliminationTree& tree) {
    const MatrixXd rigid = free_rigid_motions(model, fixed);
    std::vector<char> held = fixed;
    if (rigid.cols() == 0) {
        return held;
    }
    std::vector<Index> chosen = telling_apart(rigid, last_unknowns(tree, fixed));
    if (chosen.empty()) {
        chosen = telling_apart(rigid, free_unknowns(fixed));
    }
    if (chosen.empty()) {
        throw SolveError("modes", "the mesh does not tell the " + std::to_string(rigid.cols()) +
                                      " rigid motions of the board apart: it is too thin");
    }
    for (const Index unknown : chosen) {
        held[static_cast<std::size_t>(unknown)] = 1;
    }
    return held;
}

MatrixXd off_supports(const PlateModel& model, const std::vector<char>& held,
                      const MatrixXd& motion) {
    const MatrixXd rigid = rigid_body_motions(model);
    std::vector<Index> places;
    for (std::size_t k = 0; k < held.size(); ++k) {
        if (held[k] != 0) {
            places.push_back(static_cast<Index>(k));
        }
    }
    return motion - rigid * least_squares(rigid(places, Eigen::all), motion(places, Eigen::all));
}

Eigen::MatrixXd straining_part(const PlateModel& model, const EliminationTree& tree,
                               const Eigen::MatrixXd& motion) {
    if (!model.rest) {
        return motion; // in a rigid motion nothing strains
    }
    const std::vector<char> none(static_cast<std::size_t>(model.unknowns()), 0);
    return off_supports(model, determinate_supports(model, none, tree), motion);
}

Modes lowest_modes(const PlateModel& model, const std::vector<char>& fixed, int count,
                   const ModeOptions& options) {
    const MassMatrix mass = mass_matrix(model);
    EliminationTree own_tree;
    std::optional<Factor> own;
    if (options.factor == nullptr) {
        own_tree = build_tree(element_dofs(model.numbering));
        const ElementStiffness stiffness = [&](int quad, MatrixXd& K) {
            quad_stiffness(model, quad, K);
        };
        FactorOptions factor_options;
        factor_options.means = options.means;
        own = factorise(own_tree, stiffness, determinate_supports(model, fixed, own_tree),
                        factor_options);
    }
    const Factor& factor = own ? *own : *options.factor;
    const TakenOut rigid = taken_out(mass, free_rigid_motions(model, fixed));
    const auto mask = [&](MatrixXd x) {
        for (Index k = 0; k < x.rows(); ++k) {
            if (fixed[static_cast<std::size_t>(k)] != 0) {
                x.row(k).setZero();
            }
        }
        return x;
    };
    int steps = 0;
    const KrylovOperators operators{
        [&](const MatrixXd& force) {
            if (options.means.progress) { // how many steps it takes is not known
                options.means.progress(1 - std::pow(0.8, steps++));
            }
            MatrixXd x = solve(factor, force, options.means.threads);
            rigid.from(x);
            return x;
        },
        [&](const MatrixXd& motion) { return mask(times(mass, motion)); }};
    MatrixXd start = mask(start_block(model, options, count));
    rigid.from(start);
    // Of a column that was rigid rounding is left, as rigid as not: at length one it is a start
    // like another, once the rigid motions are taken out of it again.
    start.colwise().normalize(); // a column of zeros stays
    rigid.from(start);
    KrylovOptions krylov;
    krylov.count = count;
    krylov.tolerance = options.tolerance;
    krylov.stock = options.means.stock;
    const KrylovPairs pairs = largest_pairs(operators, start, krylov);
    if (!pairs.converged) {
        throw SolveError("modes", "the iteration did not converge in " +
                                      std::to_string(krylov.most_steps) + " steps");
    }
    Modes modes;
    modes.omega2 = pairs.theta.head(count).cwiseInverse();
    modes.shape = pairs.vectors.leftCols(count);
    modes.near = pairs.vectors;
    modes.residual = pairs.lack;
    return modes;
}

MatrixXd at_higher_degree(const PlateModel& from, const PlateModel& to, const MatrixXd& motion) {
    const MatrixXd line = lagrange(from.reference.nodes, to.reference.nodes);
    const Index few = line.cols();
    const Index many = line.rows();
    MatrixXd result(to.unknowns(), motion.cols());
    for (std::size_t quad = 0; quad < to.mesh.quads.size(); ++quad) {
        const std::vector<int>& coarse = from.numbering.quad_nodes[quad];
        const std::vector<int>& fine = to.numbering.quad_nodes[quad];
        for (Index j = 0; j < many; ++j) {
            for (Index i = 0; i < many; ++i) {
                auto rows = result.middleRows<unknowns_per_node>(
                    Index(unknowns_per_node) * fine[static_cast<std::size_t>(j * many + i)]);
                rows.setZero();
                for (Index b = 0; b < few; ++b) {
                    for (Index a = 0; a < few; ++a) {
                        rows += line(i, a) * line(j, b) *
                                motion.middleRows<unknowns_per_node>(
                                    Index(unknowns_per_node) *
                                    coarse[static_cast<std::size_t>(b * few + a)]);
                    }
                }
            }
        }
    }
    return result;
}

} // namespace vrid
