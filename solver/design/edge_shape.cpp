#include "solver/design/edge_shape.hpp"

#include <cmath>

#include "solver/design/mix_slopes.hpp"
#include "solver/design/moved_nodes.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/shape_gradient.hpp"
#include "solver/system/dense_solve.hpp"
#include "solver/system/foot_motion.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

constexpr double line_shift = 1e-6; // far above rounding, far below the lines' 0.05 mm

bool is_moment(const std::string& name) {
    return name.starts_with("roll_moment");
}

// The unknowns of both feet, which follow foot_motions and nothing else.
std::vector<Index> held_unknowns(const FootPatches& feet) {
    std::vector<Index> all;
    for (const auto* foot : {&feet.rear, &feet.front}) {
        for (const int node : *foot) {
            for (Index c = 0; c < unknowns_per_node; ++c) {
                all.push_back(unknowns_per_node * node + c);
            }
        }
    }
    return all;
}

class EdgeShape {
  public:
    EdgeShape(const DesignBoard& design, const EdgeOwed& owed, int threads)
        : board_(*design.board), adjoint_(*owed.adjoint), owed_(owed),
          motion_(adjoint_.model.mesh, board_, meant_lines(board_, edge_stations)),
          mix_(board_, *owed.weights), m_(adjoint_.m(Eigen::all, owed.columns)),
          moved_(adjoint_.model.rest ? adjoint_.model : bare_copy(adjoint_.model)),
          by_thickness_(by_thickness(design, *owed.weights)),
          held_(held_unknowns(adjoint_.compliance.feet)), threads_(threads) {
        const PlateModel& model = adjoint_.model;
        for (Index r = 0; r < m_.cols(); ++r) {
            terms_.push_back({m_.col(r), adjoint_.u, 1, r});
        }
        if (!model.rest) {
            gradient_ = node_gradient(model, terms_, {}, m_.cols(), threads);
        }
        const MatrixXd feet =
            small_foot_motions(model, adjoint_.compliance.feet)(held_, Eigen::all);
        feet_of_u_ = least_squares(feet, adjoint_.u(held_));
        feet_of_m_ = least_squares(feet, m_(held_, Eigen::all));
        const EdgeLine& line = adjoint_.tilted.line;
        const VectorXd force = along_vw(line.side, adjoint_.snow.tilt, adjoint_.state.g);
        on_feet_ = internal_forces(model, adjoint_.u, threads) - nodal_loads(model, line) * force;
        of_m_ = internal_forces(model, m_, threads);
    }

    VectorXd slopes(const LineValue& line) {
        const ShapeChange change = shape_change(board_, line, line_shift);
        const Moves moves = moves_of(adjoint_.model, velocity_of(motion_, change, edge_stations));
        VectorXd all = places_part(line, moves) +
                       by_thickness_.transpose() * thickness_change(*owed_.weights, change, moves) +
                       mix_.of(change);
        const double high = change.low + change.width;
        const Standing below = standing(*change.below, moves, change.low);
        const Standing above = standing(*change.above, moves, high);
        const MatrixXd feet = (above.feet - below.feet) / change.width;
        VectorXd turned = VectorXd::Zero(adjoint_.u.size());
        turned(held_) = feet * feet_of_u_;
        all += of_m_.transpose() * turned;
        all += feet_of_m_.transpose() * (feet.transpose() * on_feet_(held_));
        // the load's work is -force times the lever times the pitch of both feet
        all += adjoint_.load.force * (above.lever - below.lever) / change.width *
               feet_of_m_.row(motion_pitch).transpose();
        all += (along_edge(*change.above, moves, turned, high) -
                along_edge(*change.below, moves, turned, change.low)) /
               change.width;
        return all;
    }

  private:
    // The feet where the nodes come to: what each of foot_motions does to them, and the lever of
    // the load, along the floor.
    struct Standing {
        MatrixXd feet; // of held_ x foot_motions
        double lever = 0;
    };
    Standing standing(const Board& board, const Moves& moves, double share) {
        move_to(board, moves, share);
        FootPatches feet = adjoint_.compliance.feet;
        feet.rear_x = board.stance->rear();
        feet.front_x = board.stance->front();
        const double on_front = adjoint_.load.share;
        return {small_foot_motions(moved_, feet)(held_, Eigen::all),
                on_front * place_at(moved_, feet.front_x).X +
                    (1 - on_front) * place_at(moved_, feet.rear_x).X};
    }

    void move_to(const Board& board, const Moves& moves, double share) {
        move_nodes(moved_, adjoint_.model, moves, share);
        moved_.rest = adjoint_.model.rest ? rest_shape(board) : nullptr;
    }

    // m^T K' u by the nodes' places.
    VectorXd places_part(const LineValue& line, const Moves& moves) {
        if (adjoint_.model.rest) {
            return rest_places_slopes({board_, line, adjoint_.model, moves, terms_, {}, m_.cols()},
                                      threads_);
        }
        const Eigen::Map<const VectorXd> nodes(moves.nodes.data(), moves.nodes.size());
        return gradient_.transpose() * nodes;
    }

    // Each number less the snow's work on its own motion, at the edge of the board with its nodes
    // moved by a share; of a foot's moment the work alone.
    VectorXd along_edge(const Board& board, const Moves& moves, const VectorXd& turned,
                        double share) {
        move_to(board, moves, share);
        const double tilt = adjoint_.snow.tilt;
        TiltedEdge tilted;
        tilted.line = edge_line(moved_, adjoint_.tilted.line.side);
        const auto [tail, nose] =
            edge_contacts(board.planform)[tilted.line.side == Side::left ? 0 : 1];
        tilted.line.chords = {tail, nose};
        tilted.points = edge_points(tilted.line, gauss(edge_gauss_points));
        tilted.tilt = tilt;
        tilted.front_x = board.stance->front();
        tilted.rear_x = board.stance->rear();
        const EdgeLine& line = tilted.line;
        const auto at_nodes = nodal_loads(moved_, line);
        const VectorXd u = adjoint_.u + share * turned;
        const EdgeMotion motion{at_nodes.transpose() * u,
                                edge_slope_loads(moved_, line).transpose() * u};
        tilted.H0 = std::cos(tilt) * rest_heights(board, tilted.points) +
                    gradient_v(line.side, tilt) * tilted.points.X.row(1).transpose();
        const VectorXd h = along_gradient(line.side, tilt, motion.vw);
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
        VectorXd all = -along_gradient(line.side, tilt, own).transpose() * pressed;
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
    PlateModel moved_; // bare, but on a rest shape
    MatrixXd by_thickness_;
    std::vector<Index> held_; // unknowns of the feet
    std::vector<EnergyTerm> terms_;
    int threads_;
    NodeGradient gradient_; // of a flat board
    VectorXd feet_of_u_;    // shares of foot_motions in u
    MatrixXd feet_of_m_;    // and in each m
    VectorXd on_feet_;      // K u - f: what the feet supply
    MatrixXd of_m_;         // K m
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
