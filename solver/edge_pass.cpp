#include "solver/edge_pass.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "solver/bent_edge_weights.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/edge_weights.hpp"
#include "solver/system/stopwatch.hpp"

namespace vrid {

namespace {

double largest_slope(const EdgeCurve& curve) {
    return std::max(curve.slope.cwiseAbs().maxCoeff(), curve.loss.cwiseAbs().maxCoeff());
}

FootPatches feet_of(const Board& board, const PlateModel& model) {
    return {board.stance->rear(), board.stance->front(),
            foot_patch(board, model, board.stance->rear()),
            foot_patch(board, model, board.stance->front())};
}

} // namespace

FootedPlate on_its_feet(const Board& board, PlateModel model,
                        std::shared_ptr<const EliminationTree> tree, SolveMeans means) {
    FootPatches feet = feet_of(board, model);
    return footed_plate(std::move(model), std::move(feet), std::move(tree), means);
}

FootedPlate held_on_its_feet(const Board& board, PlateModel model,
                             std::shared_ptr<const EliminationTree> tree) {
    FootPatches feet = feet_of(board, model);
    return held_plate(std::move(model), std::move(feet), std::move(tree));
}

EdgePass::EdgePass(const Board& board, FootedPlate& plate, const EdgeOptions& options,
                   const BentRests* near)
    : board_(board), plate_(plate), options_(options), near_(near) {}

EdgePass::Ready& EdgePass::ready(Side side, std::map<std::string, double>& seconds) {
    std::optional<Ready>& found = of(side);
    if (found) {
        return *found;
    }
    const Stopwatch watch(seconds["compliance"]);
    const auto [tail, nose] = edge_contacts(board_.planform)[side == Side::left ? 0 : 1];
    const std::vector<double> chords{tail, nose};
    Ready ready;
    if (large_) {
        ready.edge.line = edge_line(plate_.model, side);
        ready.edge.line.chords = chords;
    } else {
        ready.compliance = edge_compliance(plate_, side, options_.thread_count(), chords);
        ready.edge.line = ready.compliance.line;
    }
    ready.edge.points = edge_points(ready.edge.line, gauss(edge_gauss_points));
    ready.even = edge_points(ready.edge.line, even_rule(edge_even_intervals));
    ready.edge.rest = rest_heights(board_, ready.edge.points);
    ready.even_rest = rest_heights(board_, ready.even);
    found = std::move(ready);
    return *found;
}

EdgeConditionResult EdgePass::condition(const EdgeCondition& condition, SectionCache* weights_with,
                                        std::map<std::string, double>& seconds) {
    if (condition.bent && !large_) {
        large_.emplace(large_motion_model(plate_.model, options_.thread_count()));
    }
    assert(condition.bent == large_.has_value());
    Ready& edge = ready(condition.side, seconds);
    const Stopwatch watch(seconds["contact"]);
    EdgeConditionResult found;
    found.condition = condition;
    if (large_) {
        in_large_motion(edge, weights_with, found);
    } else {
        in_small_motion(edge, weights_with, found);
    }
    return found;
}

void EdgePass::in_small_motion(Ready& ready, SectionCache* weights_with,
                               EdgeConditionResult& found) {
    const EdgeCondition& condition = found.condition;
    const EdgeCompliance& edge = ready.compliance;
    if (!ready.tilted || ready.tilted->tilt != condition.tilt) {
        ready.tilted = tilt_edge(edge, ready.edge.points, ready.edge.rest, condition.tilt);
    }
    const SnowForce snow{condition.law, condition.hardness, condition.tilt};
    const FootLoad load{condition.force, condition.share};
    const ContactState state = solve_contact(*ready.tilted, snow, load, ready.last);
    states_.push_back(state);
    found.steps = state.steps;
    found.no_equilibrium = state.why;
    if (!state.equilibrium) {
        return;
    }
    const EdgeMotion motion = edge_motion(edge, snow.tilt, state);
    found.curve = edge_curve(edge.line, ready.even, ready.even_rest, snow, motion);
    const EdgeSituation situation{edge, *ready.tilted, state, found.curve, load};
    found.numbers = edge_numbers(situation);
    if (weights_with != nullptr) {
        const auto adjoint = std::make_shared<EdgeAdjoint>(
            edge_adjoint({plate_, situation, ready.even, ready.even_rest, snow, motion},
                         options_.thread_count()));
        found.weights = std::make_shared<SectionWeights>(
            edge_weights(*adjoint, *weights_with, options_.thread_count()));
        found.adjoint = options_.adjoint ? adjoint : nullptr;
    }
    found.slope = largest_slope(found.curve);
    ready.last = state;
}

BentRest EdgePass::start(const BentStand& stand, const Ready& ready,
                         const EdgeCondition& condition) const {
    if (near_ != nullptr && near_->at[rests_.size()].contact.equilibrium) {
        return in_finer_nodes(stand, ready.edge, condition, near_->model, near_->at[rests_.size()]);
    }
    return ready.last_bent ? rests_[*ready.last_bent] : BentRest{};
}

void EdgePass::in_large_motion(Ready& ready, SectionCache* weights_with,
                               EdgeConditionResult& found) {
    const EdgeCondition& condition = found.condition;
    const BentStand stand{plate_, *large_, {options_.thread_count(), options_.memory.get()}};
    const BentRest& rest = rests_.emplace_back(
        rest_bent(stand, ready.edge, condition, start(stand, ready, condition)));
    found.steps = rest.steps;
    found.no_equilibrium = rest.contact.why;
    if (!rest.contact.equilibrium) {
        return;
    }
    const SnowForce snow{condition.law, condition.hardness, condition.tilt};
    found.curve = edge_curve(ready.edge.line, ready.even, ready.even_rest, snow, rest.motion);
    TiltedEdge tilted; // the places; its compliance changed from step to step
    tilted.line = ready.edge.line;
    tilted.points = ready.edge.points;
    tilted.tilt = condition.tilt;
    tilted.front_x = plate_.feet.front_x;
    tilted.rear_x = plate_.feet.rear_x;
    found.numbers = edge_numbers(
        {ready.compliance, tilted, rest.contact, found.curve, {condition.force, condition.share}},
        rest.feet);
    found.slope = largest_slope(found.curve);
    found.least_c = rest.least_c;
    found.most_strain = rest.most_strain;
    if (options_.motion) {
        found.motion = rest.u;
    }
    if (weights_with != nullptr) {
        const BentCurve shown{ready.even, ready.even_rest, found.curve};
        found.weights = std::make_shared<SectionWeights>(
            bent_edge_weights(stand, ready.edge, condition, rest, shown, *weights_with));
    }
    ready.last_bent = rests_.size() - 1;
}

void EdgePass::set_load(const EdgeCondition& condition, const ContactState& state,
                        Eigen::Ref<Eigen::VectorXd> force,
                        Eigen::Ref<Eigen::VectorXd> motion) const {
    force = along_vw(condition.side, condition.tilt, state.g);
    motion.setZero();
    motion.head(free_motions) = state.a;
}

void EdgePass::add_motion(EdgeConditionResult& last) {
    if (large_) {
        return; // it has it, if asked for
    }
    const EdgeLine& line = of(last.condition.side)->edge.line;
    Eigen::VectorXd force(2 * line.nodes());
    Eigen::VectorXd motion(foot_motions);
    set_load(last.condition, states_.back(), force, motion);
    last.motion = board_motion(plate_, line, force, motion, options_.thread_count());
}

void EdgePass::add_motion(std::vector<EdgeConditionResult>& results, Side side) {
    std::vector<std::size_t> which;
    for (std::size_t i = 0; i < states_.size(); ++i) {
        if (results[i].condition.side == side && states_[i].equilibrium) {
            which.push_back(i);
        }
    }
    if (which.empty()) {
        return;
    }
    const EdgeLine& line = of(side)->edge.line;
    const auto count = static_cast<Index>(which.size());
    Eigen::MatrixXd force(2 * line.nodes(), count);
    Eigen::MatrixXd motion(foot_motions, count);
    for (Index c = 0; c < count; ++c) {
        const std::size_t i = which[static_cast<std::size_t>(c)];
        set_load(results[i].condition, states_[i], force.col(c), motion.col(c));
    }
    const Eigen::MatrixXd u = board_motion(plate_, line, force, motion, options_.thread_count());
    for (Index c = 0; c < count; ++c) {
        results[which[static_cast<std::size_t>(c)]].motion = u.col(c);
    }
}

} // namespace vrid
