#include "solver/design/edge_shape.hpp"

#include <cmath>
#include <utility>

#include "solver/design/mix_slopes.hpp"
#include "solver/design/moved_nodes.hpp"
#include "solver/edge_mesh.hpp"
#include "solver/response/shape_gradient.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double line_shift = 1e-6; // far above rounding, far below the lines' 0.05 mm

bool is_moment(const std::string& name) {
    return name.starts_with("roll_moment");
}

// How a foot turns: its nodes go by w = c + pitch x + roll y.
struct Turn {
    double pitch = 0, roll = 0;
};

Turn turn_of(const std::vector<int>& foot, const VectorXd& motion) {
    const int node = foot.front();
    return {-motion(unknown(node, comp_bx)), -motion(unknown(node, comp_by))};
}

class EdgeShape {
  public:
    EdgeShape(const DesignBoard& design, const EdgeOwed& owed, int threads)
        : board_(*design.board), adjoint_(*owed.adjoint), owed_(owed),
          motion_(adjoint_.model.mesh, board_, meant_lines(board_, edge_stations)),
          mix_(board_, *owed.weights), m_(adjoint_.m(Eigen::all, owed.columns)),
          moved_(bare_copy(adjoint_.model)), by_thickness_(by_thickness(design, *owed.weights)) {
        const PlateModel& model = adjoint_.model;
        std::vector<VectorXd> left; // the terms refer to them
        left.reserve(owed.columns.size());
        std::vector<EnergyTerm> terms;
        for (Index r = 0; r < m_.cols(); ++r) {
            left.emplace_back(m_.col(r));
            terms.push_back({left.back(), adjoint_.u, 1, r});
        }
        gradient_ = node_gradient(model, terms, {}, m_.cols(), threads);
        const EdgeLine& line = adjoint_.tilted.line;
        VectorXd force(2 * line.nodes());
        force << gradient_v(line.side, adjoint_.snow.tilt) * adjoint_.state.g,
            std::cos(adjoint_.snow.tilt) * adjoint_.state.g;
        on_feet_ = internal_forces(model, adjoint_.u, threads) - nodal_loads(model, line) * force;
        of_m_ = internal_forces(model, m_, threads);
    }

    VectorXd slopes(const LineValue& line) {
        const ShapeChange change = shape_change(board_, line, line_shift);
        const Moves moves = moves_of(adjoint_.model, velocity_of(motion_, change, edge_stations));
        const Eigen::Map<const VectorXd> nodes(moves.nodes.data(), moves.nodes.size());
        VectorXd all = gradient_.transpose() * nodes +
                       by_thickness_.transpose() * thickness_change(*owed_.weights, change, moves) +
                       mix_.of(change);
        const Stance& below = *change.below->stance;
        const Stance& above = *change.above->stance;
        const double rear = (above.rear() - below.rear()) / change.width;
        const double front = (above.front() - below.front()) / change.width;
        const VectorXd turned = foot_change(adjoint_.u, moves, front);
        all += of_m_.transpose() * turned;
        const FootLoad& load = adjoint_.load;
        const double lever = load.share * front + (1 - load.share) * rear;
        for (Index r = 0; r < all.size(); ++r) {
            all(r) += foot_change(m_.col(r), moves, front).dot(on_feet_);
            // the load's work is -force times the lever times the pitch of both feet
            all(r) += load.force * lever * turn_of(adjoint_.compliance.feet.rear, m_.col(r)).pitch;
        }
        const double high = change.low + change.width;
        all += (along_edge(*change.above, moves, turned, high) -
                along_edge(*change.below, moves, turned, change.low)) /
               change.width;
        return all;
    }

  private:
    // Of the nodes of the feet, which go on turning as one piece where they come to.
    [[nodiscard]] VectorXd foot_change(const VectorXd& motion, const Moves& moves,
                                       double front) const {
        const FootPatches& feet = adjoint_.compliance.feet;
        const double both = turn_of(feet.rear, motion).pitch; // about x = 0
        VectorXd change = VectorXd::Zero(motion.size());
        for (const auto* foot : {&feet.rear, &feet.front}) {
            const Turn turn = turn_of(*foot, motion);
            const double about = foot == &feet.front ? (turn.pitch - both) * front : 0;
            for (const int node : *foot) {
                change(unknown(node, comp_w)) =
                    turn.pitch * moves.nodes(0, node) + turn.roll * moves.nodes(1, node) - about;
            }
        }
        return change;
    }

    // Each number less the snow's work on its own motion, at the edge of the board with its nodes
    // moved by a share; of a foot's moment the work alone.
    VectorXd along_edge(const Board& board, const Moves& moves, const VectorXd& turned,
                        double share) {
        move_nodes(moved_, adjoint_.model, moves, share);
        const double tilt = adjoint_.snow.tilt;
        TiltedEdge tilted;
        tilted.line = edge_line(moved_, adjoint_.tilted.line.side);
        const auto [tail, nose] =
            edge_contacts(board.planform)[tilted.line.side == Side::left ? 0 : 1];
        tilted.line.chords = {tail, nose};
        tilted.points = edge_points(tilted.line, gauss(edge_gauss_points));
        tilted.tilt = tilt;
        tilted.front_x = tilted.front_place = board.stance->front();
        tilted.rear_x = tilted.rear_place = board.stance->rear();
        const EdgeLine& line = tilted.line;
        const Index n = line.nodes();
        const double gv = gradient_v(line.side, tilt);
        const double gw = std::cos(tilt);
        const auto at_nodes = nodal_loads(moved_, line);
        const VectorXd u = adjoint_.u + share * turned;
        const EdgeMotion motion{at_nodes.transpose() * u,
                                edge_slope_loads(moved_, line).transpose() * u};
        tilted.H0 =
            gw * rest_heights(board, tilted.points) + gv * tilted.points.X.row(1).transpose();
        const VectorXd h = gv * motion.vw.head(n) + gw * motion.vw.tail(n);
        ContactState state = adjoint_.state;
        const VectorXd H = tilted.H0 + at_points(line, tilted.points, h);
        state.q = H.unaryExpr([&](double height) { return adjoint_.snow.q(-height); });
        const EdgePoints even = edge_points(line, even_rule(edge_even_intervals));
        const EdgeCurve curve =
            edge_curve(line, even, rest_heights(board, even), adjoint_.snow, motion);
        const std::vector<NamedQuantity> named =
            edge_numbers({adjoint_.compliance, tilted, state, curve, adjoint_.load, adjoint_.top});
        const VectorXd pressed =
            to_nodes(line, tilted.points, state.q.cwiseProduct(tilted.points.ds));
        const MatrixXd own = at_nodes.transpose() * m_;
        VectorXd all = -(gv * own.topRows(n) + gw * own.bottomRows(n)).transpose() * pressed;
        for (Index r = 0; r < all.size(); ++r) {
            const std::size_t column = owed_.columns[static_cast<std::size_t>(r)];
            if (!is_moment(adjoint_.names[column])) {
                all(r) += named[column].quantity.value;
            }
        }
        return all;
    }

    const Board& board_;
    const EdgeAdjoint& adjoint_;
    const EdgeOwed& owed_;
    MeshMotion motion_;
    MixSlopes mix_;
    MatrixXd m_;       // unknowns x numbers
    PlateModel moved_; // bare
    MatrixXd by_thickness_;
    NodeGradient gradient_;
    VectorXd on_feet_; // K u - f: what the feet supply
    MatrixXd of_m_;    // K m
};

} // namespace

MatrixXd edge_shape_slopes(const DesignBoard& design, const EdgeOwed& owed,
                           const std::vector<LineValue>& lines, int threads) {
    EdgeShape shape(design, owed, threads);
    MatrixXd slopes(static_cast<Index>(owed.columns.size()), static_cast<Index>(lines.size()));
    for (Index i = 0; i < slopes.cols(); ++i) {
        slopes.col(i) = shape.slopes(lines[static_cast<std::size_t>(i)]);
    }
    return slopes;
}

} // namespace vrid
