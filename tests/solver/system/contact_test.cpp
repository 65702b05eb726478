#include "solver/system/contact.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "solver/response/edge_curve.hpp"
#include "solver/system/loading.hpp"
#include "tests/plate_problem.hpp"
#include "tests/projected_forces.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double E = 12e9, b = 0.02, t = 0.006, EI = E * b * t * t * t / 12;

// A strip with Poisson's ratio zero, stiff in its own plane, in torsion and in shear: along its
// length exactly the beam of Bernoulli, and nothing but bending moves its edge. EI times `stiffer`.
Section<double> beam(double stiffer = 1) {
    Section<double> section = moved_to(isotropic_section(E, 0, t), 0);
    section.A *= 1e3;
    section.D *= stiffer;
    section.D(2, 2) *= 1e2;
    section.S *= 1e2 * std::sqrt(stiffer);
    return section;
}

PlateModel strip(double length, int nx, int p, const Section<double>& section) {
    const double x = length / 2;
    const double y = b / 2;
    return make_model(mesh_patch({{{-x, -y}, {x, -y}, {x, y}, {-x, y}}}, nx, 2), p, section);
}

FootedPlate on_lines(PlateModel model, double rear, double front) {
    FootPatches feet{rear, front, line_nodes(model, rear), line_nodes(model, front)};
    return footed_plate(std::move(model), std::move(feet), nullptr, {});
}

TiltedEdge tilted(const EdgeCompliance& edge, double tilt) {
    const EdgePoints points = edge_points(edge.line, gauss(8));
    return tilt_edge(edge, points, VectorXd::Zero(points.X.cols()), tilt);
}

double contact_length(const EdgeCompliance& edge, const SnowForce& snow,
                      const ContactState& state) {
    const EdgePoints even = edge_points(edge.line, even_rule(12));
    const EdgeCurve curve = edge_curve(edge.line, even, VectorXd::Zero(even.X.cols()), snow,
                                       edge_motion(edge, snow.tilt, state));
    const TiltedEdge edge_at = tilted(edge, snow.tilt);
    for (const NamedQuantity& number : edge_numbers({edge, edge_at, state, curve, {1, 1}, 1})) {
        if (number.name == "contact_length") {
            return number.quantity.value;
        }
    }
    return 0;
}

} // namespace

TEST_CASE("a long strip with a point load touches over pi / beta, whatever the load (tensionless "
          "beam on an elastic foundation)") {
    const double tilt = pi / 4;
    const double k = 2e5;
    const double foundation = k * std::cos(tilt) * std::cos(tilt); // of w
    const double beta = std::pow(foundation / (4 * EI), 0.25);
    const double length = 2.5 * pi / beta;
    double before = 1;
    for (const int nx : {10, 20, 40}) {
        // The unloaded rear foot stands at the end, outside the contact: the strip is straight
        // there.
        const FootedPlate plate = on_lines(strip(length, nx, 3, beam()), -length / 2, 0);
        const EdgeCompliance edge =
            edge_compliance(plate, Side::left, 1, {plate.feet.rear_x, plate.feet.front_x});
        const SnowForce snow{SnowLaw::linear, k, tilt};
        const double F = 200;
        const ContactState state = solve_contact(tilted(edge, tilt), snow, {F, 1});
        REQUIRE(state.equilibrium);
        const double found = contact_length(edge, snow, state);
        const double error = std::abs(found * beta / pi - 1);
        // w0 = F beta / (2 k_w) coth(pi / 2) and no wider contact: beta c = pi / 2 (w = M = V = 0
        // there)
        const double deepest = F * beta / (2 * foundation) / std::tanh(pi / 2) * std::cos(tilt);
        const double depth_error = std::abs(state.d.maxCoeff() / deepest - 1);
        INFO("nx " << nx << ": contact length off by " << error << ", depth by " << depth_error);
        WARN("nx " << nx << ": contact length off by " << error << ", depth by " << depth_error);
        CHECK(error < 0.005);
        CHECK(depth_error < 0.005);
        before = error;
    }
    CHECK(before < 5e-4);
}

TEST_CASE("a rigid strip presses by geometry alone: the line force is linear along it") {
    const double tilt = pi / 3;
    const double L = 1.2;
    const double F = 500;
    const double share = 0.6;
    const double foot = 0.3;
    const FootedPlate plate = on_lines(strip(L, 20, 2, beam(1e4)), -foot, foot);
    const EdgeCompliance edge = edge_compliance(plate, GENERATE(Side::left, Side::right), 1,
                                                {plate.feet.rear_x, plate.feet.front_x});
    const TiltedEdge edge_at = tilted(edge, tilt);
    const ContactState state = solve_contact(edge_at, {SnowLaw::linear, 1e3, tilt}, {F, share});
    REQUIRE(state.equilibrium);
    const double x_load = foot * (2 * share - 1);
    for (Index i = 0; i < state.q.size(); ++i) {
        const double x = edge_at.points.X(0, i);
        const double by_hand = F / std::cos(tilt) / L * (1 + 12 * x_load * x / (L * L));
        CHECK(state.q(i) == Approx(by_hand).epsilon(1e-4));
    }
}

TEST_CASE(
    "the right edge is the left edge's mirror image, and nose and tail change places with the "
    "share") {
    const double tilt = pi / 4;
    const FootedPlate plate = on_lines(strip(1.2, 16, 3, isotropic_section(E, 0.3, t)), -0.3, 0.3);
    const SnowForce snow{SnowLaw::volume, 5e9, tilt};
    const ContactState left =
        solve_contact(tilted(edge_compliance(plate, Side::left, 1), tilt), snow, {300, 0.7});
    const ContactState right =
        solve_contact(tilted(edge_compliance(plate, Side::right, 1), tilt), snow, {300, 0.7});
    const ContactState turned =
        solve_contact(tilted(edge_compliance(plate, Side::left, 1), tilt), snow, {300, 0.3});
    REQUIRE((left.equilibrium && right.equilibrium && turned.equilibrium));
    CHECK((left.q - right.q).cwiseAbs().maxCoeff() < 1e-6 * left.q.maxCoeff());
    CHECK((left.q - turned.q.reverse()).cwiseAbs().maxCoeff() < 1e-6 * left.q.maxCoeff());
}

TEST_CASE("snow, feet and the whole board's inner forces are in balance") {
    const double tilt = 0.9;
    const double F = 300;
    const FootedPlate plate = on_lines(strip(1.2, 16, 3, isotropic_section(E, 0.3, t)), -0.3, 0.3);
    const EdgeCompliance edge =
        edge_compliance(plate, Side::left, 1, {plate.feet.rear_x, plate.feet.front_x});
    const TiltedEdge edge_at = tilted(edge, tilt);
    const ContactState state = solve_contact(edge_at, {SnowLaw::volume, 5e8, tilt}, {F, 0.7});
    REQUIRE(state.equilibrium);
    const VectorXd force = state.q.cwiseProduct(edge_at.points.ds);
    CHECK(std::cos(tilt) * force.sum() == Approx(F).epsilon(1e-9));
    CHECK(std::cos(tilt) * edge_at.points.X.row(0).dot(force) ==
          Approx(F * 0.3 * 0.4).epsilon(1e-9));
    // The same from the plate itself: K u is minus the load at the feet, by heave, pitch and slide.
    VectorXd nodal(2 * edge.line.nodes());
    nodal << -std::sin(tilt) * state.g, std::cos(tilt) * state.g;
    VectorXd motion = VectorXd::Zero(foot_motions);
    motion.head(free_motions) = state.a;
    const MatrixXd u = board_motion(plate, edge.line, nodal, motion, 1);
    const MatrixXd Ku = internal_forces(plate.model, u);
    double rear = 0;
    double front = 0;
    double roll = 0;
    for (const auto* foot : {&plate.feet.rear, &plate.feet.front}) {
        for (const int node : *foot) {
            const auto on_edge = std::find(edge.line.node.begin(), edge.line.node.end(), node);
            const double R =
                Ku(5 * node + comp_w) - // the snow's force on a foot's own node strains nothing
                (on_edge == edge.line.node.end()
                     ? 0.0
                     : nodal(edge.line.nodes() + (on_edge - edge.line.node.begin())));
            (foot == &plate.feet.rear ? rear : front) += R;
            roll += plate.model.numbering.position(1, node) * R - Ku(5 * node + comp_by);
        }
    }
    CHECK(rear == Approx(-0.3 * F).epsilon(1e-6));
    CHECK(front == Approx(-0.7 * F).epsilon(1e-6));
    CHECK(-roll == Approx(std::cos(tilt) * edge_at.points.X.row(1).dot(force)).epsilon(1e-6));
}

TEST_CASE("each foot's roll moment is what the board's inner forces give there, also where bending "
          "twists the board") {
    const double tilt = 0.9;
    const PlyConstants<double> ply{40e9, 9e9, 0.27, 4e9, 3.5e9, 3e9, 1900, 0, 0};
    const std::vector<Lamina<double>> stack{lamina(ply, 0.5, t / 2), lamina(ply, 0.2, t / 2)};
    const FootedPlate plate = on_lines(strip(1.2, 16, 3, section(stack)), -0.3, 0.3);
    const EdgeCompliance edge =
        edge_compliance(plate, Side::left, 1, {plate.feet.rear_x, plate.feet.front_x});
    const TiltedEdge edge_at = tilted(edge, tilt);
    const SnowForce snow{SnowLaw::volume, 5e8, tilt};
    const ContactState state = solve_contact(edge_at, snow, {300, 0.7});
    REQUIRE(state.equilibrium);
    VectorXd nodal(2 * edge.line.nodes());
    nodal << -std::sin(tilt) * state.g, std::cos(tilt) * state.g;
    VectorXd motion = VectorXd::Zero(foot_motions);
    motion.head(free_motions) = state.a;
    const MatrixXd Ku =
        internal_forces(plate.model, board_motion(plate, edge.line, nodal, motion, 1));
    const auto roll_at = [&](const std::vector<int>& foot) {
        double roll = 0;
        for (const int node : foot) {
            const auto place = std::find(edge.line.node.begin(), edge.line.node.end(), node);
            const double on_it = // the snow's force on a foot's own node strains nothing
                place == edge.line.node.end()
                    ? 0.0
                    : nodal(edge.line.nodes() + (place - edge.line.node.begin()));
            roll += plate.model.numbering.position(1, node) * (Ku(5 * node + comp_w) - on_it) -
                    Ku(5 * node + comp_by);
        }
        return roll;
    };
    const EdgePoints even = edge_points(edge.line, even_rule(12));
    const EdgeCurve curve = edge_curve(edge.line, even, VectorXd::Zero(even.X.cols()), snow,
                                       edge_motion(edge, tilt, state));
    int found = 0;
    for (const NamedQuantity& number : edge_numbers({edge, edge_at, state, curve, {300, 0.7}})) {
        if (number.name == "roll_moment_front" || number.name == "roll_moment_rear") {
            const bool front = number.name == "roll_moment_front";
            CAPTURE(number.name);
            CHECK(number.quantity.value ==
                  Approx(-roll_at(front ? plate.feet.front : plate.feet.rear)).epsilon(1e-6));
            ++found;
        }
    }
    CHECK(found == 2);
}

TEST_CASE("Newton's state of rest is that of a projected method on the forces") {
    const double tilt = 0.7;
    const FootedPlate plate = on_lines(strip(1.2, 8, 2, isotropic_section(E, 0.3, t)), -0.3, 0.3);
    const EdgePoints points = edge_points(edge_line(plate.model, Side::left), gauss(3));
    VectorXd rest(points.X.cols());
    for (Index i = 0; i < rest.size(); ++i) { // camber and raised ends
        const double x = points.X(0, i);
        rest(i) = 0.004 * (1 - x * x / 0.16) + 0.4 * x * x * x * x;
    }
    const TiltedEdge edge = tilt_edge(edge_compliance(plate, Side::left, 1), points, rest, tilt);
    const SnowForce snow =
        GENERATE(SnowForce{SnowLaw::linear, 2e5, 0.7}, SnowForce{SnowLaw::volume, 1e8, 0.7});
    const FootLoad load{100, GENERATE(0.5, 0.8)};
    const ContactState state = solve_contact(edge, snow, load);
    REQUIRE(state.equilibrium);
    const VectorXd q = projected_forces(edge, snow, load);
    CHECK((q - state.q).cwiseAbs().maxCoeff() < 1e-3 * q.maxCoeff());
}

TEST_CASE("a load beyond the end of the edge has no equilibrium, and the reason is given") {
    const FootedPlate plate = on_lines(strip(1.2, 8, 2, beam()), -0.6, 0.3);
    TiltedEdge edge = tilted(edge_compliance(plate, Side::left, 1), 0.7);
    edge.front_place = 0.61;
    const ContactState state = solve_contact(edge, {SnowLaw::volume, 1e9, 0.7}, {300, 1});
    CHECK_FALSE(state.equilibrium);
    CHECK_THAT(state.why, Catch::Contains("tips over") && Catch::Contains("0.61"));
    CHECK(solve_contact(edge, {SnowLaw::volume, 1e9, 0.7}, {300, 0.5}).equilibrium);
}
