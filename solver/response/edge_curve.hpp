#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/response/quantity.hpp"
#include "solver/system/contact.hpp"

namespace vrid {

// Points a segment of the edge's mesh.
constexpr int edge_gauss_points = 8;    ///< of the snow: the ends of contact lie inside segments
constexpr int edge_even_intervals = 12; ///< of the curve that is shown

/// One running edge at rest in the snow, at points from tail to nose (ends of segments twice).
struct EdgeCurve {
    Eigen::VectorXd x, y;  ///< [m]
    Eigen::VectorXd along; ///< place along the floor: of a bent board as moved, else x [m]
    Eigen::VectorXd ds;    ///< trapezoid weights [m]
    Eigen::VectorXd H;     ///< height over the snow, negative inside it [m]
    Eigen::VectorXd q;     ///< [N/m]
    Eigen::VectorXd v, w;  ///< motion of the running surface [m]
    Eigen::VectorXd z0;    ///< rest height [m]
    Eigen::VectorXd slope; ///< dw/dx [rad]
    Eigen::VectorXd loss;  ///< of the edging angle: dw/dy on the left, -dw/dy on the right [rad]
    Eigen::VectorXd twist; ///< the same of the whole section's best line, at EdgeLine::chords [rad]
};

/// What a state moves at the edge: all that its curve is made of.
struct EdgeMotion {
    Eigen::VectorXd vw;     ///< v of all nodes of the line, then w [m]
    Eigen::VectorXd slopes; ///< by edge_slope_loads [rad]
    /// Of a bent board place and u of the nodes along the floor, and the slopes are sines [m].
    Eigen::VectorXd along = {};
};
EdgeMotion edge_motion(const EdgeCompliance& edge, double tilt, const ContactState& state);

/// The same at the even points of the line.
EdgeCurve edge_curve(const EdgeLine& line, const EdgePoints& points, const Eigen::VectorXd& rest,
                     const SnowForce& snow, const EdgeMotion& motion);

/// Even points of a segment, both ends included, with the weights of the trapezoid rule.
Rule even_rule(int intervals);

/// What the numbers of a condition are made of.
struct EdgeSituation {
    const EdgeCompliance& edge;
    const TiltedEdge& tilted;
    const ContactState& state;
    const EdgeCurve& curve;
    FootLoad load;
    /// Point of the curve about which the peak lies; -1: the largest force's. Held for derivatives,
    /// as the parabola through other points is a little another one.
    Eigen::Index top = -1;
};

/// What the feet must supply about the long axis, each about its middle; positive where the foot
/// presses the loaded edge down.
struct FootNeeds {
    double front = 0, rear = 0; ///< [N m]
    double balance = 0;         ///< largest lack of force, pitch and roll over the load, per metre
};
FootNeeds foot_needs(const EdgeSituation& situation);

/// The point of the largest force.
Eigen::Index top_of(const EdgeCurve& curve);

/// The numbers of edge.json in its order and by its names, errors left 0: peak, peak_x,
/// contact_tail, contact_nose (its ends), contact_length, effective_length, share_nose,
/// share_middle, share_tail, loss_nose, loss_nose_twist, loss_nose_across, the same three of
/// loss_tail, loss_mean (q-weighted), max_depth, turn_radius, roll_moment_front, roll_moment_rear,
/// balance. Of the edge angle lost, `twist` is what the section turns as a whole (the slope of the
/// best line over the full width), `across` the rest, by bending across the board. The line's
/// chords are the tail's contact station and the nose's.
std::vector<NamedQuantity> edge_numbers(const EdgeSituation& situation);
/// \param needs of a bent board, that do not follow from the situation's compliance
std::vector<NamedQuantity> edge_numbers(const EdgeSituation& situation, const FootNeeds& needs);

/// Curvature along the board of the part between the outermost points in contact, fitted [1/m].
double bending_curvature(const EdgeCurve& curve);

} // namespace vrid
