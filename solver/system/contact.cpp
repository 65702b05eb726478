#include "solver/system/contact.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include <Eigen/Cholesky>

#include "mesh/board/error.hpp"
#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

constexpr int most_steps = 200;    // far above what was ever seen: a fault, not slowness
constexpr double accuracy = 1e-10; // of the feet's equations and the nodal forces, by the load
// A start from nowhere passes through softer snow, which finds the parts that touch from above: a
// thousandth as hard at first, four times harder each step. By trial on 1000 random conditions of
// four boards under both laws: 14 steps at most, without it 24.
constexpr double softest = 1e-3;
constexpr double hardening = 4;
constexpr double near_enough =
    0.3; // imbalance over the load with which a neighbour's state may start

// What the snow does to the board in one state.
struct Pressed {
    VectorXd q, stiffness; // per point
    VectorXd f;            // nodal forces
};

// The stiffness is the secant between the depth that is and the one that the last step expected
// from the force it saw coming: with the tangent, a point pressed far too deep comes back by half
// the way each step, and one that lifted off has no stiffness to come back with. Both depths meet
// at the solution, where the secant is the tangent.
Pressed press(const TiltedEdge& edge, const SnowForce& snow, const VectorXd& H,
              const VectorXd& expected) {
    Pressed pressed{VectorXd(H.size()), VectorXd(H.size()), {}};
    for (Index i = 0; i < H.size(); ++i) {
        const double d = -H(i);
        const double apart = d - expected(i);
        pressed.q(i) = snow.q(d);
        pressed.stiffness(i) = std::abs(apart) > 1e-6 * std::abs(d)
                                   ? (pressed.q(i) - snow.q(expected(i))) / apart
                                   : snow.slope(d);
    }
    pressed.f = to_nodes(edge.line, edge.points, pressed.q.cwiseProduct(edge.points.ds));
    return pressed;
}

// Depths that belong to the forces which the step's linear model sees at its end; where it sees
// none but the board coming down on the snow, at most the `usual` depth.
VectorXd expect(const SnowForce& snow, const Pressed& pressed, const VectorXd& H,
                const VectorXd& dH, double usual) {
    VectorXd expected(H.size());
    for (Index i = 0; i < H.size(); ++i) {
        const double q = pressed.q(i) - pressed.stiffness(i) * dH(i);
        expected(i) = q > 0 ? snow.depth(q) : std::min(usual, -H(i) - dH(i));
    }
    return expected;
}

struct Step {
    VectorXd g, a, h; // changes; h at the nodes
};

// Newton's step from the state's lack of balance: `lack_g` = f - g at the nodes, `lack_a` =
// L + R^T f - K a at the feet.
//   (1/C + S) dh - (1/C) R da = lack_g,   R^T S dh + K da = lack_a
Step newton_step(const TiltedEdge& edge, const MatrixXd& S, const VectorXd& lack_g,
                 const VectorXd& lack_a) {
    const Eigen::LLT<MatrixXd> P(edge.C_inverse + S);
    const MatrixXd moved = P.solve(edge.C_inverse * edge.R);
    const VectorXd pressed = P.solve(lack_g);
    const MatrixXd SR = S * edge.R;
    MatrixXd feet = edge.K + edge.R.transpose() * S * moved;
    // Without contact the feet float: a little stiffness keeps the step finite.
    feet.diagonal() +=
        1e-13 * (feet.diagonal().cwiseAbs() +
                 VectorXd::Constant(free_motions, feet.diagonal().cwiseAbs().mean()));
    Step step;
    step.a = solve_square(feet, lack_a - SR.transpose() * pressed);
    step.h = pressed + moved * step.a;
    step.g = lack_g - S * step.h;
    return step;
}

// Where the energy's slope along a step, rising, passes zero: the full step when it is good enough.
template <class Slope> double step_length(const Slope& slope) {
    const double at_start = slope(0);
    double high = 1;
    double at_high = slope(high);
    if (!(at_start < 0) || std::abs(at_high) < 0.1 * std::abs(at_start)) {
        return 1;
    }
    double low = 0;
    for (int i = 0; i < 40 && at_high < 0; ++i) {
        low = high;
        high *= 2;
        at_high = slope(high);
    }
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        const double at_middle = slope(middle);
        if (std::abs(at_middle) < 0.01 * std::abs(at_start)) {
            return middle;
        }
        (at_middle < 0 ? low : high) = middle;
    }
    return low;
}

// Every point between the feet and as far again in a bond that may pull, as stiff as snow that
// carries the load on the whole edge: the board bent to the snow.
void first_guess(const TiltedEdge& edge, const SnowForce& snow, const VectorXd& L,
                 ContactState& state) {
    const double length = edge.points.ds.sum();
    const double q = -L(motion_heave) / (length * std::cos(edge.tilt));
    const double d = snow.depth(q);
    const double reach = 0.8 * (edge.points.X.row(0).maxCoeff() - edge.points.X.row(0).minCoeff());
    const double middle = -(L(motion_pitch) / L(motion_heave));
    VectorXd slope = VectorXd::Zero(edge.H0.size());
    for (Index i = 0; i < slope.size(); ++i) {
        if (std::abs(edge.points.X(0, i) + middle) < reach / 2) {
            slope(i) = q / d;
        }
    }
    const MatrixXd S = snow_stiffness(edge, slope);
    const VectorXd f =
        to_nodes(edge.line, edge.points, -slope.cwiseProduct(edge.points.ds).cwiseProduct(edge.H0));
    const Step step = newton_step(edge, S, f, L + edge.R.transpose() * f);
    state.g = step.g;
    state.a = step.a;
}

std::string tips_over(const TiltedEdge& edge, const FootLoad& load) {
    const double x = load.share * edge.front_place + (1 - load.share) * edge.rear_place;
    const double tail = edge.points.X.row(0).minCoeff();
    const double nose = edge.points.X.row(0).maxCoeff();
    if (x > tail && x < nose) {
        return "";
    }
    std::ostringstream text;
    text << "the load stands at x = " << x << " m, outside the edge (" << tail << " to " << nose
         << " m): the board tips over";
    return text.str();
}

// What a state lacks of rest.
struct Lack {
    VectorXd H; // heights at the points [m]
    Pressed pressed;
    VectorXd g, a; // see newton_step
};

Lack lack_of(const TiltedEdge& edge, const SnowForce& snow, const VectorXd& L,
             const ContactState& state, const VectorXd& expected) {
    Lack lack;
    lack.H = edge.H0 + at_points(edge.line, edge.points, edge.R * state.a + edge.C * state.g);
    lack.pressed = press(edge, snow, lack.H, expected.size() > 0 ? expected : -lack.H);
    lack.g = lack.pressed.f - state.g;
    lack.a = L + edge.R.transpose() * lack.pressed.f - edge.K * state.a;
    return lack;
}

double largest(const VectorXd& v) {
    return v.cwiseAbs().maxCoeff();
}

// The neighbour's state if it is near, else the first guess; says whether it is the neighbour's.
bool begin(const TiltedEdge& edge, const SnowForce& snow, const VectorXd& L,
           const ContactState& start, ContactState& state) {
    if (start.g.size() == edge.line.nodes()) {
        const Lack lack = lack_of(edge, snow, L, start, {});
        if (largest(lack.a) < near_enough * std::abs(L(motion_heave))) {
            state.g = start.g;
            state.a = start.a;
            return true;
        }
    }
    first_guess(edge, snow, L, state);
    return false;
}

// Moves the state along Newton's direction; returns the depths expected at its end.
VectorXd advance(const TiltedEdge& edge, const SnowForce& snow, const VectorXd& L, const Lack& lack,
                 double usual, ContactState& state) {
    const Step step =
        newton_step(edge, snow_stiffness(edge, lack.pressed.stiffness), lack.g, lack.a);
    const VectorXd dH = at_points(edge.line, edge.points, step.h);
    const VectorXd Cdg = edge.C * step.g;
    const double base = state.g.dot(Cdg) + step.a.dot(edge.K * state.a - L);
    const double rate = step.g.dot(Cdg) + step.a.dot(edge.K * step.a);
    const double s = step_length([&](double share) {
        double slope = base + rate * share;
        for (Index i = 0; i < dH.size(); ++i) {
            slope -=
                snow.q(-lack.H(i) - share * dH(i)) * dH(i) * edge.points.ds(i); // 0 out of the snow
        }
        return slope;
    });
    state.g += s * step.g;
    state.a += s * step.a;
    return expect(snow, lack.pressed, lack.H, dH, usual);
}

} // namespace

FreeMotions foot_forces(const TiltedEdge& edge, const FootLoad& load) {
    FreeMotions L = FreeMotions::Zero();
    L(motion_heave) = -load.force;
    L(motion_pitch) =
        -load.force * (load.share * edge.front_place + (1 - load.share) * edge.rear_place);
    L(motion_front_heave) = -load.force * load.share;
    return L;
}

MatrixXd snow_stiffness(const TiltedEdge& edge, const VectorXd& slope) {
    const Index q = edge.points.places();
    MatrixXd S = MatrixXd::Zero(edge.line.nodes(), edge.line.nodes());
    for (std::size_t s = 0; s < edge.line.segments.size(); ++s) {
        const Index from = q * static_cast<Index>(s);
        const VectorXd weight =
            slope.segment(from, q).cwiseProduct(edge.points.ds.segment(from, q));
        if (weight.isZero(0)) {
            continue;
        }
        const MatrixXd part = edge.points.N.transpose() * weight.asDiagonal() * edge.points.N;
        const std::vector<int>& node = edge.line.segments[s].node;
        for (std::size_t j = 0; j < node.size(); ++j) {
            for (std::size_t i = 0; i < node.size(); ++i) {
                S(node[i], node[j]) += part(static_cast<Index>(i), static_cast<Index>(j));
            }
        }
    }
    return S;
}

ContactState solve_contact(const TiltedEdge& edge, const SnowForce& snow, const FootLoad& load,
                           const ContactState& start) {
    ContactState state;
    state.why = tips_over(edge, load);
    if (!state.why.empty()) {
        return state;
    }
    const VectorXd L = foot_forces(edge, load) + edge.on_feet;
    const double usual = snow.depth(load.force / edge.points.ds.sum());
    SnowForce now = snow;
    double softer = begin(edge, snow, L, start, state) ? 1 : softest;
    VectorXd expected;
    for (state.steps = 0; state.steps <= most_steps; ++state.steps) {
        now.hardness = snow.hardness * softer;
        const Lack lack = lack_of(edge, now, L, state, expected);
        state.balance = largest(lack.a) / load.force;
        if (softer == 1 && state.balance < accuracy && largest(lack.g) < accuracy * load.force) {
            state.equilibrium = true;
            state.d = (-lack.H).cwiseMax(0.0);
            state.q = lack.pressed.q;
            return state;
        }
        expected = advance(edge, now, L, lack, usual, state);
        softer = std::min(1.0, hardening * softer);
    }
    std::ostringstream text;
    text << most_steps << " steps leave " << state.balance << " of the load out of balance";
    throw SolveError("contact", text.str());
}

} // namespace vrid
