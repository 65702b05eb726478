#include "solver/system/eigenvalues.hpp"

#include <algorithm>
#include <numeric>

#include <Eigen/Eigenvalues>
#include <Eigen/SparseCore>
#include <Spectra/SymGEigsShiftSolver.h>

#include "mesh/board/error.hpp"
#include "solver/system/element_dofs.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::Map;
using Eigen::MatrixXd;
using Eigen::VectorXd;

using NodeMatrix = Eigen::SparseMatrix<double, Eigen::RowMajor>;
using ByNode = Eigen::Matrix<double, unknowns_per_node, Eigen::Dynamic>;

/// M as three matrices nodes x nodes: I0 on u v w, I1 between u, bx and v, by, I2 on bx by.
struct Mass {
    NodeMatrix I0, I1, I2;
};

Mass assembled_mass(const PlateModel& model) {
    std::vector<Eigen::Triplet<double>> I0;
    std::vector<Eigen::Triplet<double>> I1;
    std::vector<Eigen::Triplet<double>> I2;
    MatrixXd M;
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        quad_mass(model, static_cast<int>(quad), M);
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        for (std::size_t j = 0; j < nodes.size(); ++j) {
            for (std::size_t i = 0; i < nodes.size(); ++i) {
                const Index row = unknowns_per_node * static_cast<Index>(i);
                const Index col = unknowns_per_node * static_cast<Index>(j);
                I0.emplace_back(nodes[i], nodes[j], M(row, col));
                I1.emplace_back(nodes[i], nodes[j], M(row, col + 3));
                I2.emplace_back(nodes[i], nodes[j], M(row + 3, col + 3));
            }
        }
    }
    const int n = model.numbering.nodes;
    Mass mass{NodeMatrix(n, n), NodeMatrix(n, n), NodeMatrix(n, n)};
    mass.I0.setFromTriplets(I0.begin(), I0.end());
    mass.I1.setFromTriplets(I1.begin(), I1.end());
    mass.I2.setFromTriplets(I2.begin(), I2.end());
    return mass;
}

VectorXd times(const Mass& mass, const VectorXd& x) {
    const Map<const ByNode> motion(x.data(), unknowns_per_node, x.size() / unknowns_per_node);
    VectorXd result = VectorXd::Zero(x.size());
    Map<ByNode> force(result.data(), unknowns_per_node, motion.cols());
    // one pass over the three: they have the same entries, and memory is what takes the time
    const int* first = mass.I0.outerIndexPtr();
    for (Index i = 0; i < motion.cols(); ++i) {
        auto f = force.col(i);
        for (int k = first[i]; k < first[i + 1]; ++k) {
            const auto m = motion.col(mass.I0.innerIndexPtr()[k]);
            const double I1 = mass.I1.valuePtr()[k];
            f.head<3>() += mass.I0.valuePtr()[k] * m.head<3>();
            f.head<2>() += I1 * m.tail<2>();
            f.tail<2>() += I1 * m.head<2>() + mass.I2.valuePtr()[k] * m.tail<2>();
        }
    }
    return result;
}

/// u, v, turn in the plane; w, turn about y, turn about x: unknowns x 6. Exact zero energy.
MatrixXd rigid_motions(const PlateModel& model) {
    MatrixXd R = MatrixXd::Zero(model.unknowns(), 6);
    const Eigen::Vector2d middle = model.numbering.position.rowwise().mean();
    for (int node = 0; node < model.numbering.nodes; ++node) {
        const Eigen::Vector2d at = model.numbering.position.col(node) - middle;
        auto rows = R.middleRows<unknowns_per_node>(Index(unknowns_per_node) * node);
        rows(0, 0) = rows(1, 1) = rows(2, 3) = 1;
        rows(0, 2) = -at.y();
        rows(1, 2) = at.x();
        rows(2, 4) = at.x();
        rows(3, 4) = -1;
        rows(2, 5) = at.y();
        rows(4, 5) = -1;
    }
    return R;
}

/// The rigid motions that move no fixed unknown: the null space of their fixed rows.
MatrixXd free_rigid_motions(const PlateModel& model, const std::vector<char>& fixed) {
    const MatrixXd R = rigid_motions(model);
    Eigen::Matrix<double, 6, 6> held = Eigen::Matrix<double, 6, 6>::Zero();
    for (Index k = 0; k < R.rows(); ++k) {
        if (fixed[static_cast<std::size_t>(k)] != 0) {
            held += R.row(k).transpose() * R.row(k);
        }
    }
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, 6, 6>> eigen(held);
    // a motion is held if a fixed unknown moves by more than rounding does
    const double zero = 1e-12 * std::max(1.0, eigen.eigenvalues().maxCoeff());
    const auto count = static_cast<Index>((eigen.eigenvalues().array() <= zero).count());
    return R * eigen.eigenvectors().leftCols(count);
}

/// The pencil K - lambda M with a set of M-orthonormal motions taken out.
struct Pencil {
    Mass mass;
    Factor factor; ///< of K + s M
    double shift = 0;
    int threads = 1;
    std::vector<char> fixed;
    MatrixXd known, M_known; ///< unknowns x motions taken out

    void mask(VectorXd& x) const {
        for (Index k = 0; k < x.size(); ++k) {
            if (fixed[static_cast<std::size_t>(k)] != 0) {
                x(k) = 0;
            }
        }
    }
    void take_out(VectorXd& x) const { x -= known * (M_known.transpose() * x); }
    void add(VectorXd x) {
        take_out(x);
        take_out(x); // twice: enough against rounding
        VectorXd Mx = times(mass, x);
        const double norm = std::sqrt(x.dot(Mx));
        known.conservativeResize(x.size(), known.cols() + 1);
        M_known.conservativeResize(x.size(), M_known.cols() + 1);
        known.col(known.cols() - 1) = x / norm;
        M_known.col(M_known.cols() - 1) = Mx / norm;
    }
};

/// (K + s M)^-1, then without the known motions: what Spectra calls the shifted operator.
struct Inverse {
    using Scalar = double;
    const Pencil* pencil;
    [[nodiscard]] Index rows() const { return static_cast<Index>(pencil->fixed.size()); }
    [[nodiscard]] Index cols() const { return rows(); }
    void set_shift(double) const {} // the factor has it already
    void perform_op(const double* in, double* out) const {
        VectorXd x = solve(pencil->factor, Map<const VectorXd>(in, rows()), pencil->threads);
        pencil->take_out(x);
        Map<VectorXd>(out, rows()) = x;
    }
};

struct MassProduct {
    using Scalar = double;
    const Pencil* pencil;
    [[nodiscard]] Index rows() const { return static_cast<Index>(pencil->fixed.size()); }
    [[nodiscard]] Index cols() const { return rows(); }
    void perform_op(const double* in, double* out) const {
        VectorXd x = times(pencil->mass, Map<const VectorXd>(in, rows()));
        pencil->mask(x);
        Map<VectorXd>(out, rows()) = x;
    }
};

// A start without symmetry, the same in every run.
VectorXd start_vector(const Pencil& pencil) {
    VectorXd x(static_cast<Index>(pencil.fixed.size()));
    for (Index k = 0; k < x.size(); ++k) {
        x(k) = std::sin(12.9898 * static_cast<double>(k) + 1);
    }
    pencil.mask(x);
    pencil.take_out(x);
    return x;
}

struct Found {
    VectorXd omega2;
    MatrixXd shape;
};

Found search(const Pencil& pencil, int count) {
    constexpr double tolerance = 1e-11;
    constexpr int most_restarts = 300;
    Inverse inverse{&pencil};
    MassProduct mass{&pencil};
    const auto free = static_cast<int>(
        std::count(pencil.fixed.begin(), pencil.fixed.end(), char(0)) - pencil.known.cols());
    const int wanted = std::min(count, free - 1);
    const int basis = std::min(2 * wanted + 12, free);
    Spectra::SymGEigsShiftSolver<Inverse, MassProduct, Spectra::GEigsMode::ShiftInvert> solver(
        inverse, mass, wanted, basis, -pencil.shift);
    const VectorXd start = start_vector(pencil);
    solver.init(start.data());
    solver.compute(Spectra::SortRule::LargestMagn, most_restarts, tolerance,
                   Spectra::SortRule::SmallestAlge);
    if (solver.info() != Spectra::CompInfo::Successful) {
        throw SolveError("modes", "the iteration did not converge in " +
                                      std::to_string(most_restarts) + " restarts");
    }
    return {solver.eigenvalues(), solver.eigenvectors()};
}

// A frequency of the model's own order, from above: Rayleigh's quotient of w = x^2. Added as s M it
// makes a free K positive and leaves the lowest modes well apart.
double natural_scale(const PlateModel& model, const Pencil& pencil) {
    VectorXd bend = VectorXd::Zero(model.unknowns());
    const double middle = model.numbering.position.row(0).mean();
    for (Index node = 0; node < model.numbering.nodes; ++node) {
        const double x = model.numbering.position(0, node) - middle;
        bend(unknowns_per_node * node + 2) = x * x;
        bend(unknowns_per_node * node + 3) = -2 * x;
    }
    Pencil free{pencil.mass, {}, 0, 1, {}, MatrixXd(bend.size(), 0), MatrixXd(bend.size(), 0)};
    const MatrixXd rigid = rigid_motions(model);
    for (Index k = 0; k < rigid.cols(); ++k) {
        free.add(rigid.col(k));
    }
    free.take_out(bend);
    return bend.dot(VectorXd(internal_forces(model, bend))) / bend.dot(times(free.mass, bend));
}

// By rising omega^2.
void sort(Found& all) {
    std::vector<Index> order(static_cast<std::size_t>(all.omega2.size()));
    std::iota(order.begin(), order.end(), Index(0));
    std::stable_sort(order.begin(), order.end(),
                     [&](Index a, Index b) { return all.omega2(a) < all.omega2(b); });
    all = {all.omega2(order), all.shape(Eigen::all, order)};
}

// A search can meet one of two equal modes only; the next one, beside all that is known, meets the
// other.
Found search_all(Pencil& pencil, int count) {
    constexpr double same = 1e-8; // relative; equal frequencies do not add to what is wanted
    Found all = search(pencil, count);
    for (Index k = 0; k < all.shape.cols(); ++k) {
        pencil.add(all.shape.col(k));
    }
    for (bool complete = false; !complete;) {
        const Found more = search(pencil, 1);
        complete = more.omega2(0) > all.omega2(count - 1) * (1 - same);
        pencil.add(more.shape.col(0));
        all.omega2.conservativeResize(all.omega2.size() + 1);
        all.omega2(all.omega2.size() - 1) = more.omega2(0);
        all.shape.conservativeResize(Eigen::NoChange, all.shape.cols() + 1);
        all.shape.rightCols(1) = pencil.known.rightCols(1);
        sort(all);
    }
    return {all.omega2.head(count), all.shape.leftCols(count)};
}

double worst_residual(const Pencil& pencil, const Found& found) {
    double worst = 0;
    for (Index k = 0; k < found.shape.cols(); ++k) {
        const VectorXd x = found.shape.col(k);
        VectorXd Mx = times(pencil.mass, x);
        pencil.mask(Mx);
        const VectorXd lack = x - (found.omega2(k) + pencil.shift) *
                                      VectorXd(solve(pencil.factor, Mx, pencil.threads));
        worst = std::max(worst, std::sqrt(lack.dot(times(pencil.mass, lack)) / x.dot(Mx)));
    }
    return worst;
}

} // namespace

Modes lowest_modes(const PlateModel& model, const std::vector<char>& fixed, int count,
                   int threads) {
    const EliminationTree tree = build_tree(element_dofs(model.numbering));
    const Index n = model.unknowns();
    Pencil pencil{assembled_mass(model), {}, 0, threads, fixed, MatrixXd(n, 0), MatrixXd(n, 0)};
    pencil.shift = natural_scale(model, pencil);
    const ElementStiffness shifted = [&](int quad, MatrixXd& K) {
        MatrixXd M;
        quad_stiffness(model, quad, K);
        quad_mass(model, quad, M);
        K += pencil.shift * M;
    };
    FactorOptions options;
    options.threads = threads;
    pencil.factor = factorise(tree, shifted, fixed, options);
    const MatrixXd rigid = free_rigid_motions(model, fixed);
    for (Index k = 0; k < rigid.cols(); ++k) {
        pencil.add(rigid.col(k));
    }
    const Found found = search_all(pencil, count);
    return {found.omega2, found.shape, worst_residual(pencil, found)};
}

} // namespace vrid
