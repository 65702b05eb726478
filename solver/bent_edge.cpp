#include "solver/bent_edge.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "mesh/board/error.hpp"
#include "solver/bent_limits.hpp"
#include "solver/edge_conditions.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

constexpr double balance_wanted = 5e-10; // of the feet's equations: else one step more

// One component of the line's nodes.
VectorXd of_nodes(const EdgeLine& line, const VectorXd& u, Component c) {
    VectorXd values(line.nodes());
    for (Index i = 0; i < values.size(); ++i) {
        values(i) = u(unknown(line.node[static_cast<std::size_t>(i)], c));
    }
    return values;
}

class Descent {
  public:
    Descent(const BentStand& stand, const BentEdge& edge, const EdgeCondition& condition)
        : stand_(stand), edge_(edge), snow_{condition.law, condition.hardness, condition.tilt},
          load_{condition.force, condition.share}, gv_(gradient_v(edge.line.side, condition.tilt)),
          gw_(std::cos(condition.tilt)) {}

    // Under a part of the load; `at` is left where it got when it does not get there.
    bool to_rest(double part, BentRest& at) {
        const FootLoad load{part * load_.force, load_.share};
        bool settled = false;
        bool polished = false;
        for (int i = 0; i <= bent_iterations; ++i) {
            const BentState state = bent_state(stand_.bent, at.u, stand_.means.threads);
            if (!(state.least_c > bent_least_cosine)) {
                return false;
            }
            if (settled) {
                finish(state, load, at);
                if (at.feet.balance < balance_wanted || polished) {
                    return true;
                }
                polished = true;
            }
            try {
                settled = advance(state, load, at);
            } catch (const SolveError&) {
                return false; // a pivot that is not positive, or no rest at this tangent
            }
            if (!at.contact.why.empty()) {
                return true;
            }
            ++at.steps;
        }
        return false;
    }

    // What the snow does to the edge where a motion has taken it.
    void press(BentRest& at) const {
        const VectorXd H = gv_ * edge_.points.X.row(1).transpose() + gw_ * edge_.rest +
                           at_points(edge_.line, edge_.points, along_gradient(at.u));
        at.contact.d = (-H).cwiseMax(0.0);
        at.contact.q = H.unaryExpr([&](double height) { return snow_.q(-height); });
        at.contact.g =
            to_nodes(edge_.line, edge_.points, at.contact.q.cwiseProduct(edge_.points.ds));
    }

    [[nodiscard]] VectorXd snow_forces(const VectorXd& g) const {
        VectorXd force = VectorXd::Zero(stand_.plate.model.unknowns());
        for (Index i = 0; i < g.size(); ++i) {
            const int node = edge_.line.node[static_cast<std::size_t>(i)];
            force(unknown(node, comp_v)) = gv_ * g(i);
            force(unknown(node, comp_w)) = gw_ * g(i);
        }
        return force;
    }

  private:
    [[nodiscard]] VectorXd along_gradient(const VectorXd& u) const {
        return gv_ * of_nodes(edge_.line, u, comp_v) + gw_ * of_nodes(edge_.line, u, comp_w);
    }

    // One step of Newton's method; whether it was small enough to be the last.
    bool advance(const BentState& state, const FootLoad& load, BentRest& at) {
        FootedPlate& plate = stand_.plate;
        const int threads = stand_.means.threads;
        const VectorXd lack = snow_forces(at.contact.g) - state.force;
        bend_plate(plate, state.K, bent_foot_motions(plate.model, plate.feet, at.a, at.u),
                   stand_.means);
        const VectorXd loose = solve(plate.factor, -state.force, threads).col(0);
        TiltedEdge tilted = tilt_edge(edge_compliance(plate, edge_.line.side, threads),
                                      edge_.points, edge_.rest, snow_.tilt);
        tilted.K += turn_stiffness(plate.model, plate.feet, at.a, lack);
        VectorXd from = along_gradient(at.u + loose);
        if (at.contact.g.size() > 0) { // at rest the board is where its own compliance has it
            from -= tilted.added_compliance * at.contact.g;
        }
        tilted.H0 += at_points(edge_.line, edge_.points, from);
        tilted.on_feet = -plate.motion.leftCols<free_motions>().transpose() * state.force;
        ContactState start;
        start.g = at.contact.g;
        start.a = FreeMotions::Zero();
        ContactState found = solve_contact(tilted, snow_, load, start);
        if (!found.why.empty()) {
            at.contact = found;
            return false;
        }
        const VectorXd force = along_vw(edge_.line.side, snow_.tilt, found.g);
        VectorXd feet = VectorXd::Zero(foot_motions);
        feet.head<free_motions>() = found.a;
        const VectorXd du = board_motion(plate, edge_.line, force, feet, threads).col(0) + loose;
        const double owed = std::abs(lack.dot(du) + foot_forces(tilted, load).dot(found.a));
        at.u += du;
        at.a += found.a;
        turn_feet(plate.model, plate.feet, at.a, at.u);
        at.contact = std::move(found);
        const double travel = of_nodes(edge_.line, at.u, comp_w).cwiseAbs().maxCoeff();
        return owed < bent_energy_wanted * load.force * travel;
    }

    // What the state is, all from its motion.
    void finish(const BentState& state, const FootLoad& load, BentRest& at) const {
        const FootedPlate& plate = stand_.plate;
        press(at);
        at.least_c = state.least_c;
        at.most_strain = strain_beside_feet(at.u);
        at.energy = state.energy;
        const Index n = edge_.line.nodes();
        at.motion.vw.resize(2 * n);
        at.motion.vw << of_nodes(edge_.line, at.u, comp_v), of_nodes(edge_.line, at.u, comp_w);
        at.motion.slopes = edge_slope_loads(plate.model, edge_.line).transpose() * at.u;
        at.motion.along = of_nodes(edge_.line, at.u, comp_u);
        for (Index i = 0; i < n; ++i) {
            at.motion.along(i) += place_at(plate.model, edge_.line.X(0, i)).X;
        }
        stand_on_feet(snow_forces(at.contact.g) - state.force, load, at);
    }

    // At the corners of a rigid foot strains grow with every refinement: they say nothing.
    [[nodiscard]] double strain_beside_feet(const VectorXd& u) const {
        const FootedPlate& plate = stand_.plate;
        const StrainFields strains = bent_strains(stand_.bent, u, stand_.means.threads);
        double most = 0;
        for (std::size_t quad = 0; quad < strains.size(); ++quad) {
            const auto& nodes = plate.model.numbering.quad_nodes[quad];
            const bool at_foot = std::ranges::any_of(nodes, [&](int node) {
                return plate.factor.fixed[static_cast<std::size_t>(unknown(node, comp_w))] != 0;
            });
            if (!at_foot) {
                most = std::max(most, strains[quad].topRows<3>().cwiseAbs().maxCoeff());
            }
        }
        return most;
    }

    // \param forces the snow's less the board's
    void stand_on_feet(const VectorXd& forces, const FootLoad& load, BentRest& at) const {
        const PlateModel& model = stand_.plate.model;
        const FootPatches& feet = stand_.plate.feet;
        const double rear = place_at(model, feet.rear_x).X;
        const double front = place_at(model, feet.front_x).X;
        const double sign = edge_.line.side == Side::left ? 1 : -1;
        const Eigen::Vector2d rolls =
            sign * bent_foot_rolls(model, feet, at.a, at.u).transpose() * forces;
        at.feet.rear = rolls(0);
        at.feet.front = rolls(1);
        const MatrixXd motions = bent_foot_motions(model, feet, at.a, at.u);
        TiltedEdge places;
        places.front_place = front;
        places.rear_place = rear;
        const VectorXd lack =
            foot_forces(places, load) + motions.leftCols<free_motions>().transpose() * forces;
        at.feet.balance = lack.cwiseAbs().maxCoeff() / load.force;
    }

    const BentStand& stand_;
    const BentEdge& edge_;
    SnowForce snow_;
    FootLoad load_;
    double gv_, gw_;
};

BentRest unloaded(const PlateModel& model) {
    BentRest rest;
    rest.u = VectorXd::Zero(model.unknowns());
    return rest;
}

[[noreturn]] void give_up(const EdgeCondition& condition, double reached) {
    std::ostringstream text;
    text.precision(3);
    text << "no rest is found beyond " << 100 * reached << " % of the load ("
         << description(condition) << ")";
    throw SolveError("bent edge", text.str());
}

} // namespace

BentRest rest_bent(const BentStand& stand, const BentEdge& edge, const EdgeCondition& condition,
                   const BentRest& start) {
    Descent descent(stand, edge, condition);
    int steps = 0;
    if (start.u.size() > 0) {
        BentRest at = start;
        at.steps = 0;
        if (descent.to_rest(1, at) && at.contact.why.empty()) { // whether it tips over is for the
            return at;                                          // whole way to tell
        }
        steps = at.steps;
    }
    BentRest at = unloaded(stand.plate.model);
    double part = 1;
    int halvings = 0;
    for (double reached = 0; reached < 1;) {
        const double next = std::min(1.0, reached + part);
        BentRest tried = at;
        tried.steps = 0;
        const bool there = descent.to_rest(next, tried);
        steps += tried.steps;
        if (there) {
            at = std::move(tried);
            reached = next;
        } else {
            part = (next - reached) / 2;
            if (++halvings > bent_halvings) {
                give_up(condition, reached);
            }
        }
    }
    at.steps = steps;
    return at;
}

BentRest in_finer_nodes(const BentStand& stand, const BentEdge& edge,
                        const EdgeCondition& condition, const PlateModel& coarse, BentRest rest) {
    const PlateModel& model = stand.plate.model;
    rest.u = at_higher_degree(coarse, model, rest.u);
    turn_feet(model, stand.plate.feet, rest.a, rest.u);
    Descent(stand, edge, condition).press(rest);
    return rest;
}

VectorXd on_board(const BentStand& stand, const BentEdge& edge, const EdgeCondition& condition,
                  const BentRest& rest) {
    return Descent(stand, edge, condition).snow_forces(rest.contact.g) -
           bent_forces(stand.bent, rest.u, stand.means.threads);
}

} // namespace vrid
