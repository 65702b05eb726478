#include "solver/cooling/free_board.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "mesh/board/error.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/parallel.hpp"
#include "solver/system/quad_motion.hpp"
#include "solver/system/stopwatch.hpp"

namespace vrid {

namespace {

constexpr double residual_wanted = 1e-8; // as of every case: see degree_run
constexpr double residual_limit = 1e-6;

std::span<const PlateStiffness> sections_of(const PlateModel& model, int quad) {
    const auto m = static_cast<std::size_t>(model.reference.m);
    return {model.stiffness.data() + static_cast<std::size_t>(quad) * m, m};
}

// K u, as internal_forces, for a look at the strains in passing.
MatrixXd forces_of(const PlateModel& model, const MatrixXd& u, int threads,
                   const LookAtQuad& look) {
    const auto quads = static_cast<int>(model.mesh.quads.size());
    const Index n = Index(unknowns_per_node) * model.reference.n;
    std::vector<MatrixXd> parts(model.mesh.quads.size());
    for_each_in_parallel(quads, threads, [&](int quad) {
        const ElementTables tables = quad_tables(model, quad);
        MatrixXd& part = parts[static_cast<std::size_t>(quad)];
        part.resize(n, u.cols());
        MotionStrains strains;
        for (Index c = 0; c < u.cols(); ++c) {
            strains.push_back(
                element_strains(model.reference, tables, quad_part(model, quad, u.col(c))));
            part.col(c) =
                element_forces(model.reference, tables,
                               element_resultants(sections_of(model, quad), strains.back()));
        }
        if (look) {
            look(quad, tables, strains);
        }
    });
    MatrixXd force = MatrixXd::Zero(u.rows(), u.cols());
    for (int quad = 0; quad < quads; ++quad) {
        for (Index c = 0; c < u.cols(); ++c) {
            add_quad_part(model, quad, parts[static_cast<std::size_t>(quad)].col(c), force.col(c));
        }
    }
    return force;
}

} // namespace

FreeBoard::FreeBoard(const PlateModel& model, const EliminationTree& tree,
                     std::shared_ptr<const Factor> factor, const SolveMeans& means,
                     Seconds& seconds)
    : model_(model), means_(means), factor_(std::move(factor)) {
    if (!factor_) {
        const std::vector<char> free(static_cast<std::size_t>(model.unknowns()), 0);
        factor_ = factorise_supports(model, {determinate_supports(model, free, tree)}, tree, means,
                                     seconds)
                      .front();
    }
}

MatrixXd FreeBoard::solve(const MatrixXd& loads, const LookAtQuad& look, Seconds& seconds) {
    const Stopwatch watch(seconds["solve"]);
    MatrixXd u = vrid::solve(*factor_, loads, means_.threads);
    MatrixXd force = forces_of(model_, u, means_.threads, {});
    MatrixXd lack = loads - force;
    for (Index k = 0; k < lack.rows(); ++k) {
        if (factor_->fixed[static_cast<std::size_t>(k)] != 0) {
            lack.row(k).setZero();
        }
    }
    const MatrixXd step = vrid::solve(*factor_, lack, means_.threads);
    VectorXd correction(u.cols()); // energy norm of the step over that of u
    for (Index c = 0; c < u.cols(); ++c) {
        const double energy = std::abs(u.col(c).dot(force.col(c)));
        correction(c) = energy > 0 ? std::sqrt(std::abs(lack.col(c).dot(step.col(c))) / energy) : 0;
    }
    u += step;
    measure(loads, loads - forces_of(model_, u, means_.threads, look), correction);
    return u;
}

void FreeBoard::measure(const MatrixXd& loads, const MatrixXd& lack, const VectorXd& correction) {
    residual_ = 0;
    reaction_ = VectorXd::Zero(loads.cols());
    for (Index c = 0; c < loads.cols(); ++c) {
        const double load = loads.col(c).cwiseAbs().maxCoeff();
        if (load == 0) {
            continue;
        }
        double held = 0;
        double rest = 0;
        for (Index k = 0; k < lack.rows(); ++k) {
            if (factor_->fixed[static_cast<std::size_t>(k)] != 0) {
                held = std::max(held, std::abs(lack(k, c)));
            } else {
                rest += lack(k, c) * lack(k, c);
            }
        }
        reaction_(c) = held / load;
        const double force = std::sqrt(rest) / loads.col(c).norm();
        const double here = force > residual_wanted ? std::min(force, correction(c)) : force;
        residual_ = here > residual_ || std::isnan(here) ? here : residual_;
    }
    if (!(residual_ < residual_limit)) {
        std::ostringstream text;
        text << "relative residual " << residual_ << " is above " << residual_limit;
        throw SolveError("cooling", text.str());
    }
}

} // namespace vrid
