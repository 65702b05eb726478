#include "solver/response/edge_curve.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "mesh/board/same_place.hpp"
#include "solver/response/circle_fit.hpp"
#include "solver/response/curve_peak.hpp"

namespace vrid {

namespace {

// Place and part of the edge in contact: straight between neighbouring points.
struct Contact {
    double tail = 0, nose = 0; // x of the outermost points [m]
    double length = 0;         // arc length with d > 0 [m]
};

Contact contact_of(const EdgeCurve& curve) {
    Contact contact;
    bool any = false;
    for (Index i = 0; i + 1 < curve.x.size(); ++i) {
        const double a = curve.H(i);
        const double b = curve.H(i + 1);
        if (a >= 0 && b >= 0) {
            continue;
        }
        const double from = a < 0 ? 0 : a / (a - b);
        const double to = b < 0 ? 1 : a / (a - b);
        const double dx = curve.x(i + 1) - curve.x(i);
        contact.length += (to - from) * std::hypot(dx, curve.y(i + 1) - curve.y(i));
        contact.tail = any ? contact.tail : curve.x(i) + from * dx;
        contact.nose = curve.x(i) + to * dx;
        any = true;
    }
    return contact;
}

// Mean of the two sides where segments meet, straight between points elsewhere.
double value_near(const VectorXd& x, const VectorXd& value, double at) {
    constexpr double same = 2 * same_line; // the mesh follows a wanted line to within this
    double sum = 0;
    int count = 0;
    for (Index i = 0; i < x.size(); ++i) {
        if (std::abs(x(i) - at) < same) {
            sum += value(i);
            ++count;
        }
    }
    if (count > 0) {
        return sum / count;
    }
    for (Index i = 0; i + 1 < x.size(); ++i) {
        if (x(i) < at && at < x(i + 1)) {
            const double t = (at - x(i)) / (x(i + 1) - x(i));
            return (1 - t) * value(i) + t * value(i + 1);
        }
    }
    return at < x(0) ? value(0) : value(value.size() - 1);
}

// The loaded edge in the snow's plane, its centre of turn towards +y.
Eigen::Matrix2Xd track(const EdgeCurve& curve, const TiltedEdge& tilted) {
    const double sign = tilted.line.side == Side::left ? 1 : -1;
    Eigen::Matrix2Xd points(2, curve.x.size());
    points.row(0) = curve.along.transpose();
    points.row(1) = (sign * std::cos(tilted.tilt) * (curve.y + curve.v) +
                     std::sin(tilted.tilt) * (curve.z0 + curve.w))
                        .transpose();
    return points;
}

// A line of points with the lengths that they stand for.
struct WeightedLine {
    Eigen::Matrix2Xd points;
    VectorXd weight;
};

// Between the outermost points in contact: cut there between points, the last ones outside moved to
// the cuts. Taken whole or not at all, a fit would jump when an end of contact passes a point.
WeightedLine within_contact(const EdgeCurve& curve, const Eigen::Matrix2Xd& points) {
    const Contact contact = contact_of(curve);
    WeightedLine line{points, VectorXd::Zero(curve.x.size())};
    for (Index i = 0; i + 1 < curve.x.size(); ++i) {
        const double dx = curve.x(i + 1) - curve.x(i);
        const double from = std::max(0.0, (contact.tail - curve.x(i)) / dx);
        const double to = std::min(1.0, (contact.nose - curve.x(i)) / dx);
        if (dx <= 0 || from >= to) {
            continue;
        }
        const double length = (to - from) * std::hypot(dx, curve.y(i + 1) - curve.y(i));
        line.weight.segment<2>(i).array() += length / 2;
        const Eigen::Vector2d step = points.col(i + 1) - points.col(i);
        line.points.col(i) += from * step;
        line.points.col(i + 1) -= (1 - to) * step;
    }
    return line;
}

double curvature_in_contact(const EdgeCurve& curve, const Eigen::Matrix2Xd& points) {
    const WeightedLine line = within_contact(curve, points);
    return (line.weight.array() > 0).count() < 3 ? 0 : fitted_curvature(line.points, line.weight);
}

// Shares of the line force: tail of the rear foot, between, nose of the front foot.
std::array<double, 3> shares(const TiltedEdge& tilted, const VectorXd& force) {
    std::array<double, 3> parts{};
    for (Index i = 0; i < force.size(); ++i) {
        const double x = tilted.points.X(0, i);
        parts[x > tilted.front_x ? 2 : (x < tilted.rear_x ? 0 : 1)] += force(i) / force.sum();
    }
    return parts;
}

} // namespace

Rule even_rule(int intervals) {
    Rule rule{VectorXd::LinSpaced(intervals + 1, -1, 1),
              VectorXd::Constant(intervals + 1, 2.0 / intervals)};
    rule.weight(0) /= 2;
    rule.weight(intervals) /= 2;
    return rule;
}

EdgeMotion edge_motion(const EdgeCompliance& edge, double tilt, const ContactState& state) {
    const VectorXd force = along_vw(edge.line.side, tilt, state.g);
    return {edge.R.leftCols<free_motions>() * state.a + edge.C * force,
            edge.slope_R.leftCols<free_motions>() * state.a + edge.slope_C * force};
}

EdgeCurve edge_curve(const EdgeLine& line, const EdgePoints& points, const VectorXd& rest,
                     const SnowForce& snow, const EdgeMotion& motion) {
    const Index n = line.nodes();
    const double gv = gradient_v(line.side, snow.tilt);
    const bool bent = motion.along.size() > 0;
    const VectorXd slopes =
        bent ? VectorXd(motion.slopes.array().max(-1.0).min(1.0).asin()) : motion.slopes;
    EdgeCurve curve;
    curve.x = points.X.row(0);
    curve.y = points.X.row(1);
    curve.along = bent ? VectorXd(at_points(line, points, motion.along)) : curve.x;
    curve.ds = points.ds;
    curve.z0 = rest;
    curve.v = at_points(line, points, motion.vw.head(n));
    curve.w = at_points(line, points, motion.vw.tail(n));
    curve.H = gv * (curve.y + curve.v) + std::cos(snow.tilt) * (curve.z0 + curve.w);
    curve.q = curve.H.unaryExpr([&](double H) { return snow.q(-H); });
    const Index each = line.degree + 1;
    const Index places = points.places();
    const auto at = [&](Index first) {
        VectorXd values(curve.x.size());
        for (Index s = 0; s < static_cast<Index>(line.segments.size()); ++s) {
            values.segment(s * places, places) = points.N * slopes.segment(first + s * each, each);
        }
        return values;
    };
    const double sign = line.side == Side::left ? 1 : -1;
    const Index count = each * static_cast<Index>(line.segments.size());
    curve.slope = at(0);
    curve.loss = sign * at(count);
    curve.twist = sign * slopes.tail(slopes.size() - 2 * count);
    return curve;
}

double bending_curvature(const EdgeCurve& curve) {
    Eigen::Matrix2Xd points(2, curve.x.size());
    points.row(0) = curve.along.transpose();
    points.row(1) = curve.w.transpose();
    return curvature_in_contact(curve, points);
}

FootNeeds foot_needs(const EdgeSituation& s) {
    const double sign = s.tilted.line.side == Side::left ? 1 : -1;
    const VectorXd force = s.state.q.cwiseProduct(s.tilted.points.ds);
    const VectorXd f = along_vw(s.tilted.line.side, s.tilted.tilt,
                                to_nodes(s.tilted.line, s.tilted.points, force));
    const auto on_feet = [&](int motion) {
        return s.edge.R.col(motion).dot(f) -
               s.edge.K.row(motion).head<free_motions>().dot(s.state.a);
    };
    FootNeeds needs;
    needs.front = sign * on_feet(motion_front_roll);
    needs.rear = sign * on_feet(motion_roll) - needs.front;
    const double up = std::cos(s.tilted.tilt);
    const double middle =
        s.load.share * s.tilted.front_place + (1 - s.load.share) * s.tilted.rear_place;
    const double heave = up * force.sum() - s.load.force;
    if (s.edge.curved) { // levers by the motions; the feet's sideways forces have levers, too
        const double lack = on_feet(motion_pitch) - middle * s.load.force;
        needs.balance = std::max(std::abs(heave), std::abs(lack)) / s.load.force;
        return needs;
    }
    const double pitch = up * s.tilted.points.X.row(0).dot(force) - middle * s.load.force;
    const double lever = up * s.tilted.points.X.row(1).dot(force);
    const double turn = needs.front + needs.rear - sign * lever;
    needs.balance = std::max({std::abs(heave), std::abs(pitch), std::abs(turn)}) / s.load.force;
    return needs;
}

Index top_of(const EdgeCurve& curve) {
    Index top = 0;
    curve.q.maxCoeff(&top);
    return top;
}

std::vector<NamedQuantity> edge_numbers(const EdgeSituation& s) {
    return edge_numbers(s, foot_needs(s));
}

std::vector<NamedQuantity> edge_numbers(const EdgeSituation& s, const FootNeeds& needs) {
    const EdgeCurve& curve = s.curve;
    assert(curve.twist.size() == 2 && s.tilted.line.chords.size() == 2);
    const VectorXd force = s.state.q.cwiseProduct(s.tilted.points.ds);
    const Contact contact = contact_of(curve);
    const Index top = s.top < 0 ? top_of(curve) : s.top;
    const CurvePeak peak = curve_peak(curve.x, curve.q, top);
    const auto part = shares(s.tilted, force);
    const VectorXd weighted = curve.q.cwiseProduct(curve.ds);
    const double nose = value_near(curve.x, curve.loss, s.tilted.line.chords[1]);
    const double tail = value_near(curve.x, curve.loss, s.tilted.line.chords[0]);
    const double effective = force.sum() * force.sum() / force.dot(s.state.q);
    const double radius = 1 / curvature_in_contact(curve, track(curve, s.tilted));
    return {{"peak", {peak.value, 0, Unit::line_force}},
            {"peak_x", {peak.x, 0, Unit::length}},
            {"contact_tail", {contact.tail, 0, Unit::length}},
            {"contact_nose", {contact.nose, 0, Unit::length}},
            {"contact_length", {contact.length, 0, Unit::length}},
            {"effective_length", {effective, 0, Unit::length}},
            {"share_nose", {part[2], 0, Unit::none}},
            {"share_middle", {part[1], 0, Unit::none}},
            {"share_tail", {part[0], 0, Unit::none}},
            {"loss_nose", {nose, 0, Unit::angle}},
            {"loss_nose_twist", {curve.twist(1), 0, Unit::angle}},
            {"loss_nose_across", {nose - curve.twist(1), 0, Unit::angle}},
            {"loss_tail", {tail, 0, Unit::angle}},
            {"loss_tail_twist", {curve.twist(0), 0, Unit::angle}},
            {"loss_tail_across", {tail - curve.twist(0), 0, Unit::angle}},
            {"loss_mean", {weighted.dot(curve.loss) / weighted.sum(), 0, Unit::angle}},
            {"max_depth", {curve_peak(curve.x, -curve.H, top).value, 0, Unit::length}},
            {"turn_radius", {radius, 0, Unit::radius}},
            {"roll_moment_front", {needs.front, 0, Unit::moment}},
            {"roll_moment_rear", {needs.rear, 0, Unit::moment}},
            {"balance", {needs.balance, 0, Unit::none}}};
}

} // namespace vrid
