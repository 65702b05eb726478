#include "solver/cooling/free_board.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "mesh/board/error.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/model.hpp"
#include "solver/system/parallel.hpp"
#include "solver/system/stopwatch.hpp"

namespace vrid {

namespace {

constexpr double residual_wanted = 1e-8; // as of every case: see degree_run
constexpr double residual_limit = 1e-6;

// K u, as internal_forces, for a look at the strains in passing.
MatrixXd forces_of(const PlateModel& model, const MatrixXd& u, int threads,
                   const LookAtQuad& look) {
    return assembled_forces(model, u.cols(), threads, [&](int quad) {
        const ElementTables tables = quad_tables(model, quad);
        MatrixXd part = quad_part(model, quad, u);
        MotionStrains strains;
        for (auto column : part.colwise()) {
            strains.push_back(element_strains(model.reference, tables, column));
            column = element_forces(model.reference, tables,
                                    element_resultants(quad_sections(model, quad), strains.back()));
        }
        if (look) {
            look(quad, tables, strains);
        }
        return part;
    });
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
    clear_fixed(factor_->fixed, lack);
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
