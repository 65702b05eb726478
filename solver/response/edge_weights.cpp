#include "solver/response/edge_weights.hpp"

#include <algorithm>
#include <cmath>

#include "solver/response/curve_peak.hpp"
#include "solver/system/dense_solve.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

// The numbers when the edge moves as given, the feet's moments apart: they are not functions of it.
VectorXd numbers_at(const EdgeAtRest& at, const EdgeMotion& motion) {
    const EdgeSituation& s = at.situation;
    ContactState state = s.state;
    const VectorXd h = along_gradient(s.edge.line.side, at.snow.tilt, motion.vw);
    const VectorXd H = s.tilted.H0 + at_points(s.tilted.line, s.tilted.points, h);
    state.q = H.unaryExpr([&](double height) { return at.snow.q(-height); });
    const EdgeCurve curve = edge_curve(s.edge.line, at.even, at.even_rest, at.snow, motion);
    const std::vector<NamedQuantity> named =
        edge_numbers({s.edge, s.tilted, state, curve, s.load, top_of(s.curve)}, FootNeeds{});
    VectorXd values(static_cast<Index>(named.size()));
    for (Index i = 0; i < values.size(); ++i) {
        values(i) = named[static_cast<std::size_t>(i)].quantity.value;
    }
    return values;
}

// Derivatives of the numbers (columns) by the entries of one part of the motion (rows).
MatrixXd slopes_by(const EdgeAtRest& at, VectorXd EdgeMotion::*part, double step) {
    EdgeMotion motion = at.motion;
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

// Of peak and peak_x by v of the line's nodes, then w. The parabola at the peak is so flat that
// differences of it lose either to its bend or to rounding, in some digit before the fourth.
MatrixXd peak_by_vw(const EdgeAtRest& at) {
    const EdgeSituation& s = at.situation;
    const EdgeCurve& curve = s.curve;
    const Eigen::MatrixX2d by_q = curve_peak(curve.x, curve.q, top_of(curve)).slopes;
    const VectorXd by_height =
        curve.H.unaryExpr([&](double height) { return -at.snow.slope(-height); });
    MatrixXd by_vw(2 * s.edge.line.nodes(), 2);
    for (Index i = 0; i < 2; ++i) {
        by_vw.col(i) =
            along_vw(s.edge.line.side, at.snow.tilt,
                     to_nodes(s.edge.line, at.even, by_q.col(i).cwiseProduct(by_height)));
    }
    return by_vw;
}

MatrixXd stiffness_of_snow(const EdgeAtRest& at) {
    const EdgeSituation& s = at.situation;
    return snow_stiffness(s.tilted,
                          s.state.d.unaryExpr([&](double d) { return at.snow.slope(d); }));
}

MatrixXd along_vw(const TiltedEdge& tilted, const MatrixXd& g) {
    return along_vw(tilted.line.side, tilted.tilt, g);
}

// Of the line's nodes, by motions of the board.
MatrixXd along_gradient(const EdgeAtRest& at, const MatrixXd& motion) {
    const TiltedEdge& tilted = at.situation.tilted;
    return along_gradient(tilted.line.side, tilted.tilt,
                          nodal_loads(at.plate.model, tilted.line).transpose() * motion);
}

// The motion that turns a foot, less what board and feet do about it: its work with dK u is the
// change of the moment on the foot.
VectorXd turning(const EdgeAtRest& at, int motion, int threads) {
    const VectorXd psi = at.plate.motion.col(motion);
    const MatrixXd pressed = snow_answer(at, psi);
    const VectorXd on_feet = at.plate.motion.leftCols<free_motions>().transpose() * pressed +
                             at.plate.K.col(motion).head<free_motions>();
    return psi - follow(at, pressed, on_feet, threads);
}

} // namespace

MatrixXd number_loads(const EdgeAtRest& at) {
    const EdgeLine& line = at.situation.tilted.line;
    const PlateModel& model = at.plate.model;
    MatrixXd by_vw = slopes_by(at, &EdgeMotion::vw, 1e-6 * at.situation.state.d.maxCoeff());
    by_vw.leftCols<2>() = peak_by_vw(at);
    MatrixXd load = nodal_loads(model, line) * by_vw +
                    edge_slope_loads(model, line) * slopes_by(at, &EdgeMotion::slopes, 1e-6);
    const MatrixXd by_place = slopes_by(at, &EdgeMotion::along, 1e-6);
    for (Index i = 0; i < by_place.rows(); ++i) {
        const Index node = line.node[static_cast<std::size_t>(i)];
        load.row(unknowns_per_node * node + comp_u) += by_place.row(i);
    }
    return load;
}

MatrixXd snow_answer(const EdgeAtRest& at, const MatrixXd& motion) {
    const TiltedEdge& tilted = at.situation.tilted;
    return nodal_loads(at.plate.model, tilted.line) *
           along_vw(tilted, stiffness_of_snow(at) * along_gradient(at, motion));
}

MatrixXd follow(const EdgeAtRest& at, MatrixXd load, const MatrixXd& on_feet, int threads) {
    const TiltedEdge& tilted = at.situation.tilted;
    const Index n = tilted.line.nodes();
    clear_fixed(at.plate.factor.fixed, load);
    const MatrixXd held = solve(at.plate.factor, load, threads);
    const MatrixXd S = stiffness_of_snow(at);
    // h = h0 - C S h + R a, K a + R^T S h = on_feet
    MatrixXd system(n + free_motions, n + free_motions);
    system << MatrixXd::Identity(n, n) + tilted.C * S, -tilted.R, tilted.R.transpose() * S,
        tilted.K;
    MatrixXd right(n + free_motions, load.cols());
    right << along_gradient(at, held), on_feet;
    const MatrixXd found = solve_square(system, right);
    MatrixXd feet = MatrixXd::Zero(foot_motions, load.cols());
    feet.topRows(free_motions) = found.bottomRows(free_motions);
    return held + board_motion(at.plate, tilted.line, along_vw(tilted, -S * found.topRows(n)), feet,
                               threads);
}

EdgeAdjoint edge_adjoint(const EdgeAtRest& at, int threads) {
    const EdgeSituation& s = at.situation;
    const EdgeLine& line = s.edge.line;
    const PlateModel& model = at.plate.model;
    const double sign = line.side == Side::left ? 1 : -1;
    const std::vector<NamedQuantity> named = edge_numbers(s);
    const auto count = static_cast<Index>(named.size());
    const MatrixXd load = number_loads(at);
    const MatrixXd on_feet = at.plate.motion.leftCols<free_motions>().transpose() * load;
    MatrixXd mu = -follow(at, load, on_feet, threads);
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
    MatrixXd feet = MatrixXd::Zero(foot_motions, 1);
    feet.topRows(free_motions) = s.state.a;
    EdgeAdjoint found{model,
                      s.edge,
                      s.tilted,
                      s.state,
                      at.snow,
                      s.load,
                      top_of(s.curve),
                      {},
                      board_motion(at.plate, line, along_vw(s.tilted, s.state.g), feet, threads),
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
    SectionWeights weights = model_places(adjoint.model, sections, adjoint.m.cols());
    std::vector<EnergyTerm> terms;
    for (Index r = 0; r < adjoint.m.cols(); ++r) {
        terms.push_back({adjoint.m.col(r), adjoint.u, 1, r});
    }
    add_energy(adjoint.model, terms, threads, weights);
    return weights;
}

} // namespace vrid
