#include "solver/response/edge_weights.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// The numbers when the edge moves as given, the feet's moments apart: they are not functions of it.
VectorXd numbers_at(const EdgeAtRest& at, const EdgeMotion& motion) {
    const EdgeSituation& s = at.situation;
    const Index n = s.edge.line.nodes();
    const double gv = gradient_v(s.edge.line.side, at.snow.tilt);
    ContactState state = s.state;
    const VectorXd h = gv * motion.vw.head(n) + std::cos(at.snow.tilt) * motion.vw.tail(n);
    const VectorXd H = s.tilted.H0 + at_points(s.tilted.line, s.tilted.points, h);
    state.q = H.unaryExpr([&](double height) { return at.snow.q(-height); });
    const EdgeCurve curve = edge_curve(s.edge.line, at.even, at.even_rest, at.snow, motion);
    const std::vector<NamedQuantity> named =
        edge_numbers({s.edge, s.tilted, state, curve, s.load, top_of(s.curve)});
    VectorXd values(static_cast<Index>(named.size()));
    for (Index i = 0; i < values.size(); ++i) {
        values(i) = named[static_cast<std::size_t>(i)].quantity.value;
    }
    return values;
}

// Derivatives of the numbers (columns) by the entries of one part of the motion (rows).
MatrixXd slopes_by(const EdgeAtRest& at, VectorXd EdgeMotion::*part, double step) {
    EdgeMotion motion = edge_motion(at.situation.edge, at.snow.tilt, at.situation.state);
    VectorXd& values = motion.*part;
    MatrixXd slopes;
    for (Index i = 0; i < values.size(); ++i) {
        const double here = values(i);
        values(i) = here + step;
        const VectorXd above = numbers_at(at, motion);
        values(i) = here - step;
        const VectorXd below = numbers_at(at, motion);
        values(i) = here;
        if (slopes.size() == 0) {
            slopes.resize(values.size(), above.size());
        }
        slopes.row(i) = ((above - below) / (2 * step)).transpose();
    }
    return slopes;
}

// (K + S) mu = load on all that can move: the board beside the feet, and the feet's free motions.
// \param on_feet the load's work on the feet's free motions, board following
MatrixXd follow(const EdgeAtRest& at, const MatrixXd& load, const MatrixXd& on_feet, int threads) {
    const EdgeSituation& s = at.situation;
    const TiltedEdge& tilted = s.tilted;
    const Index n = tilted.line.nodes();
    const double gv = gradient_v(tilted.line.side, tilted.tilt);
    const double gw = std::cos(tilted.tilt);
    const MatrixXd held = solve(at.plate.factor, load, threads);
    const MatrixXd vw = nodal_loads(at.plate.model, tilted.line).transpose() * held;
    const MatrixXd h0 = gv * vw.topRows(n) + gw * vw.bottomRows(n);
    const MatrixXd S =
        snow_stiffness(tilted, s.state.d.unaryExpr([&](double d) { return at.snow.slope(d); }));
    // h = h0 - C S h + R a, K a + R^T S h = on_feet
    MatrixXd system(n + free_motions, n + free_motions);
    system << MatrixXd::Identity(n, n) + tilted.C * S, -tilted.R, tilted.R.transpose() * S,
        tilted.K;
    MatrixXd right(n + free_motions, load.cols());
    right << h0, on_feet;
    const MatrixXd found = system.partialPivLu().solve(right);
    const MatrixXd pressed = -S * found.topRows(n);
    MatrixXd force(2 * n, load.cols());
    force << gv * pressed, gw * pressed;
    MatrixXd feet = MatrixXd::Zero(foot_motions, load.cols());
    feet.topRows(free_motions) = found.bottomRows(free_motions);
    return held + board_motion(at.plate, tilted.line, force, feet, threads);
}

// The motion that turns a foot, less what board and feet do about it: its work with dK u is the
// change of the moment on the foot.
VectorXd turning(const EdgeAtRest& at, int motion, int threads) {
    const EdgeSituation& s = at.situation;
    const TiltedEdge& tilted = s.tilted;
    const Index n = tilted.line.nodes();
    const double gv = gradient_v(tilted.line.side, tilted.tilt);
    const double gw = std::cos(tilted.tilt);
    const VectorXd psi = at.plate.motion.col(motion);
    const VectorXd h = gv * s.edge.R.col(motion).head(n) + gw * s.edge.R.col(motion).tail(n);
    const MatrixXd S =
        snow_stiffness(tilted, s.state.d.unaryExpr([&](double d) { return at.snow.slope(d); }));
    const VectorXd pressed = S * h;
    VectorXd force(2 * n);
    force << gv * pressed, gw * pressed;
    const VectorXd on_feet =
        tilted.R.transpose() * pressed + at.plate.K.col(motion).head<free_motions>();
    return psi - follow(at, nodal_loads(at.plate.model, tilted.line) * force, on_feet, threads);
}

} // namespace

EdgeAdjoint edge_adjoint(const EdgeAtRest& at, int threads) {
    const EdgeSituation& s = at.situation;
    const EdgeLine& line = s.edge.line;
    const PlateModel& model = at.plate.model;
    const double sign = line.side == Side::left ? 1 : -1;
    const std::vector<NamedQuantity> named = edge_numbers(s);
    const auto count = static_cast<Index>(named.size());
    // The parabola at the peak has a small bend: 1e-4 of the depth misses its derivative by a
    // tenth.
    const double step = 1e-6 * s.state.d.maxCoeff();
    const MatrixXd by_motion = slopes_by(at, &EdgeMotion::vw, step);
    const MatrixXd by_slope = slopes_by(at, &EdgeMotion::slopes, 1e-6);
    const MatrixXd load =
        nodal_loads(model, line) * by_motion + edge_slope_loads(model, line) * by_slope;
    const MatrixXd on_feet = at.plate.motion.leftCols<free_motions>().transpose() * load;
    MatrixXd held = load;
    for (Index k = 0; k < held.rows(); ++k) {
        if (at.plate.factor.fixed[static_cast<std::size_t>(k)] != 0) {
            held.row(k).setZero();
        }
    }
    MatrixXd mu = -follow(at, held, on_feet, threads);
    const VectorXd front = sign * turning(at, motion_front_roll, threads);
    const VectorXd both = sign * turning(at, motion_roll, threads);
    for (Index r = 0; r < count; ++r) {
        const std::string& name = named[static_cast<std::size_t>(r)].name;
        if (name == "roll_moment_front") {
            mu.col(r) = -front;
        } else if (name == "roll_moment_rear") {
            mu.col(r) = -(both - front);
        }
    }
    const Index n = line.nodes();
    MatrixXd force(2 * n, 1);
    force << gradient_v(line.side, s.tilted.tilt) * s.state.g, std::cos(s.tilted.tilt) * s.state.g;
    MatrixXd feet = MatrixXd::Zero(foot_motions, 1);
    feet.topRows(free_motions) = s.state.a;
    EdgeAdjoint found{model,           s.edge,  s.tilted,
                      s.state,         at.snow, s.load,
                      top_of(s.curve), {},      board_motion(at.plate, line, force, feet, threads),
                      std::move(mu)};
    for (const NamedQuantity& number : named) {
        found.names.push_back(number.name);
        if (number.name == "balance") {
            found.m.col(static_cast<Index>(found.names.size()) - 1).setZero();
        }
    }
    return found;
}

SectionWeights edge_weights(const EdgeAdjoint& adjoint, SectionCache& sections, int threads) {
    SectionWeights weights = model_places(adjoint.model, sections);
    weights.weight =
        MatrixXd::Zero(section_terms * static_cast<Index>(weights.places.size()), adjoint.m.cols());
    std::vector<VectorXd> left; // the terms refer to them
    left.reserve(static_cast<std::size_t>(adjoint.m.cols()));
    std::vector<EnergyTerm> terms;
    for (Index r = 0; r < adjoint.m.cols(); ++r) {
        left.emplace_back(adjoint.m.col(r));
        terms.push_back({left.back(), adjoint.u, 1, r});
    }
    add_energy(adjoint.model, terms, threads, weights);
    return weights;
}

} // namespace vrid
