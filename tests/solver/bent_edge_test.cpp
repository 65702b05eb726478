// The board bent on its edge in large motion: against small motion, by hand, and against its own
// energies.
#include "solver/bent_edge.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "solver/system/loading.hpp"
#include "tests/plate_problem.hpp"
#include "tests/rest_shapes.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double strip_long = 1.2, width = 0.25, foot = 0.3;

PlateModel strip_model(const Section<double>& section, SharedShape rest, double b, int p = 3) {
    const double x = strip_long / 2;
    const double y = b / 2;
    PlateModel model =
        make_model(mesh_patch({{{-x, -y}, {x, -y}, {x, y}, {-x, y}}}, 8, 2), p, section);
    model.rest = std::move(rest);
    return model;
}

FootPatches two_feet(const PlateModel& model, double rear, double front) {
    const double half = 0.15; // a quad before the middle and one behind it
    return {rear, front, strip_nodes(model, rear - half, rear + half),
            strip_nodes(model, front - half, front + half)};
}

FootedPlate on_feet(PlateModel model, double rear, double front) {
    FootPatches feet = two_feet(model, rear, front);
    return footed_plate(std::move(model), std::move(feet), nullptr, {});
}

BentEdge edge_of(const PlateModel& model, Side side) {
    BentEdge edge;
    edge.line = edge_line(model, side);
    edge.points = edge_points(edge.line, gauss(8));
    edge.rest = VectorXd::Zero(edge.points.X.cols());
    for (Index i = 0; model.rest && i < edge.rest.size(); ++i) {
        edge.rest(i) = model.rest->z(edge.points.X(0, i));
    }
    return edge;
}

// The rest of a strip in large motion.
BentRest rest_of(FootedPlate& plate, const EdgeCondition& condition) {
    const LargeMotionModel bent = large_motion_model(plate.model, 1);
    return rest_bent({plate, bent, {}}, edge_of(plate.model, condition.side), condition);
}

EdgeCondition condition(double tilt, double force, double hardness, double share = 0.5,
                        SnowLaw law = SnowLaw::linear) {
    return {Side::left, tilt, force, hardness, share, law};
}

Section<double> glass() {
    return moved_to(isotropic_section(2e10, 0.3, 0.006), 0);
}

// On the snow: its energy by the depths.
double snow_energy(const BentEdge& edge, const EdgeCondition& at, const VectorXd& d) {
    const VectorXd by_length =
        at.law == SnowLaw::linear
            ? VectorXd(at.hardness / 2 * d.array().square())
            : VectorXd(at.hardness / (3 * std::sin(2 * at.tilt)) * d.array().cube());
    return by_length.dot(edge.points.ds);
}

} // namespace

TEST_CASE("under a small load a bent strip rests as in small motion, the difference falling with "
          "the load's square") {
    const double tilt = 0.8;
    double before = 0;
    for (const double force : {40.0, 4.0}) {
        FootedPlate plate = on_feet(strip_model(glass(), inclined(0), width), -foot, foot);
        const BentEdge edge = edge_of(plate.model, Side::left);
        const TiltedEdge tilted =
            tilt_edge(edge_compliance(plate, Side::left, 1), edge.points, edge.rest, tilt);
        const ContactState small =
            solve_contact(tilted, {SnowLaw::linear, 2e4, tilt}, {force, 0.6});
        const BentRest large = rest_of(plate, condition(tilt, force, 2e4, 0.6));
        REQUIRE((small.equilibrium && large.contact.equilibrium));
        const double apart = (large.contact.q - small.q).cwiseAbs().maxCoeff();
        INFO(force << " N: line force apart by " << apart << " of " << small.q.maxCoeff()
                   << " N/m, steps " << large.steps);
        if (before > 0) {
            CHECK(apart < 1e-4 * small.q.maxCoeff());
            CHECK(before / apart == Approx(100).epsilon(0.1)); // membrane forces times slopes
        }
        before = apart;
    }
}

TEST_CASE(
    "a rigid strip on soft snow pitches by a finite angle: sin A and the line force by hand") {
    const double tilt = pi / 3;
    const double F = 500;
    const double share = 0.6;
    const double x_load = foot * (2 * share - 1);
    const double sine = 0.3; // of the pitch
    const double k =
        12 * F * x_load / (std::pow(strip_long, 3) * std::pow(std::cos(tilt), 2) * sine);
    Section<double> rigid = isotropic_section(1e15, 0, 0.006);
    FootedPlate plate = on_feet(strip_model(rigid, nullptr, 0.02), -foot, foot);
    const BentEdge edge = edge_of(plate.model, Side::left);
    const BentRest rest = rest_of(plate, condition(tilt, F, k, share));
    REQUIRE(rest.contact.equilibrium);
    const double A = rest.a(motion_pitch);
    // it bends by F length^3 / (48 EI) = 5e-5 m between the feet and beyond
    CHECK(-std::sin(A) == Approx(sine).epsilon(5e-5));
    CHECK(std::abs(rest.a(motion_front_pitch)) < 5e-5);
    CHECK(rest.a(motion_front_slide) == Approx(2 * foot * (std::cos(A) - 1)).epsilon(1e-4));
    for (Index i = 0; i < edge.rest.size(); ++i) {
        const double x = edge.points.X(0, i);
        const double by_hand =
            F / std::cos(tilt) / strip_long * (1 + 12 * x_load * x / strip_long / strip_long);
        CHECK(rest.contact.q(i) == Approx(by_hand).epsilon(1e-4));
    }
}

TEST_CASE("what snow and feet do to a bent board on its rest shape is in balance") {
    const double tilt = 0.9;
    const double F = 700;
    const EdgeCondition at = condition(tilt, F, 2e8, 0.6, SnowLaw::volume);
    FootedPlate plate = on_feet(strip_model(glass(), arc(6, -1, 1), width), -foot, foot);
    const LargeMotionModel bent = large_motion_model(plate.model, 1);
    const BentStand stand{plate, bent, {}};
    const BentEdge edge = edge_of(plate.model, Side::left);
    const BentRest rest = rest_bent(stand, edge, at);
    REQUIRE(rest.contact.equilibrium);
    CHECK(rest.feet.balance < 1e-9);
    CHECK(rest.steps <= 7);
    const VectorXd g = rest.contact.q.cwiseProduct(edge.points.ds);
    CHECK(std::cos(tilt) * g.sum() == Approx(F).epsilon(1e-9));
    INFO("steps " << rest.steps << ", travel " << rest.motion.vw.cwiseAbs().maxCoeff());
    // where the feet are not, nothing is left over; what is left on them they must supply
    VectorXd forces = on_board(stand, edge, at, rest);
    VectorXd elsewhere = forces;
    double front = 0;
    double rear = 0;
    double sideways_front = 0;
    for (const auto* patch : {&plate.feet.rear, &plate.feet.front}) {
        for (const int node : *patch) {
            (patch == &plate.feet.front ? front : rear) += forces(5 * node + comp_w);
            sideways_front += patch == &plate.feet.front ? forces(5 * node + comp_v) : 0;
            elsewhere.segment<5>(5 * Index(node)).setZero();
        }
    }
    CHECK(elsewhere.cwiseAbs().maxCoeff() < 1e-7 * F);
    CHECK(front == Approx(0.6 * F).epsilon(1e-7));
    CHECK(rear == Approx(0.4 * F).epsilon(1e-7));
    // moments about axes through the rear foot's middle, at true places
    const double front_X =
        place_at(plate.model, foot).X + rest.a(motion_front_slide) +
        (place_at(plate.model, -foot).z - place_at(plate.model, foot).z) * rest.a(motion_pitch);
    const double rear_X = place_at(plate.model, -foot).X;
    const auto height = [&](double x, double w) { return place_at(plate.model, x).z + w; };
    const double rear_w = rest.a(motion_heave) + rest.a(motion_pitch) * rear_X;
    const double front_w = rest.a(motion_heave) + rest.a(motion_front_heave) +
                           rest.a(motion_pitch) * place_at(plate.model, foot).X;
    const double rear_Z = height(-foot, rear_w);
    double pitch = 0;
    double roll = 0;
    const Index n = edge.line.nodes();
    for (Index i = 0; i < n; ++i) {
        const double up = std::cos(tilt) * rest.contact.g(i);
        const double aside = -std::sin(tilt) * rest.contact.g(i);
        pitch += up * (rest.motion.along(i) - rear_X);
        roll += up * (edge.line.X(1, i) + rest.motion.vw(i)) -
                aside * (height(edge.line.X(0, i), rest.motion.vw(n + i)) - rear_Z);
    }
    CHECK(pitch == Approx(0.6 * F * (front_X - rear_X)).epsilon(1e-6));
    const double lever = height(foot, front_w) - rear_Z;
    CHECK(roll == Approx(rest.feet.front + rest.feet.rear - sideways_front * lever).epsilon(1e-6));
}

TEST_CASE("the least energy of a bent board falls with the load by how far the feet sink") {
    const auto law = GENERATE(SnowLaw::linear, SnowLaw::volume);
    const double hardness = law == SnowLaw::linear ? 5e4 : 2e8;
    FootedPlate plate = on_feet(strip_model(glass(), arc(6, -1, 1), width), -foot, foot);
    const BentEdge edge = edge_of(plate.model, Side::left);
    const auto sinking = [&](const BentRest& rest) { // of the load's point, for one newton
        const double rear = place_at(plate.model, -foot).X;
        const double front = place_at(plate.model, foot).X;
        return rest.a(motion_heave) + rest.a(motion_pitch) * (0.6 * front + 0.4 * rear) +
               0.6 * rest.a(motion_front_heave);
    };
    const auto potential = [&](double force) {
        const EdgeCondition at = condition(0.9, force, hardness, 0.6, law);
        const BentRest rest = rest_of(plate, at);
        return rest.energy + snow_energy(edge, at, rest.contact.d) + force * sinking(rest);
    };
    const double F = 700;
    const BentRest rest = rest_of(plate, condition(0.9, F, hardness, 0.6, law));
    const double by_difference = (potential(F + 2) - potential(F - 2)) / 4;
    CHECK(by_difference == Approx(sinking(rest)).epsilon(1e-5));
}

TEST_CASE(
    "a bent board's right edge mirrors its left, nose and tail change places with the share") {
    FootedPlate plate = on_feet(strip_model(glass(), nullptr, width), -foot, foot);
    EdgeCondition at = condition(0.8, 800, 2e8, 0.7, SnowLaw::volume);
    const BentRest left = rest_of(plate, at);
    at.side = Side::right;
    const BentRest right = rest_of(plate, at);
    at.side = Side::left;
    at.share = 0.3;
    const BentRest turned = rest_of(plate, at);
    const double most = left.contact.q.maxCoeff();
    CHECK((left.contact.q - right.contact.q).cwiseAbs().maxCoeff() < 1e-6 * most);
    CHECK((left.contact.q - turned.contact.q.reverse()).cwiseAbs().maxCoeff() < 1e-6 * most);
    CHECK(right.feet.front == Approx(left.feet.front).epsilon(1e-6));
    CHECK(turned.feet.front == Approx(left.feet.rear).epsilon(1e-6));
}

TEST_CASE("where a bent board rests does not depend on where it began") {
    FootedPlate plate = on_feet(strip_model(glass(), arc(6, -1, 1), width), -foot, foot);
    const LargeMotionModel bent = large_motion_model(plate.model, 1);
    const BentStand stand{plate, bent, {}};
    const BentEdge edge = edge_of(plate.model, Side::left);
    const EdgeCondition at = condition(0.9, 700, 2e8, 0.6, SnowLaw::volume);
    const BentRest other = rest_bent(stand, edge, condition(0.6, 300, 2e8, 0.4, SnowLaw::volume));
    const BentRest fresh = rest_bent(stand, edge, at);
    const BentRest led = rest_bent(stand, edge, at, other);
    CHECK((led.contact.q - fresh.contact.q).cwiseAbs().maxCoeff() <
          1e-7 * fresh.contact.q.maxCoeff());
    CHECK(led.feet.balance < 1e-9);
}

TEST_CASE("the rest at a lower degree leads to that of the higher one in fewer steps, one that is "
          "far off to the whole way") {
    const EdgeCondition at = condition(0.9, 700, 2e8, 0.6, SnowLaw::volume);
    const auto model = [](int p) { return strip_model(glass(), arc(6, -1, 1), width, p); };
    FootedPlate coarse = on_feet(model(2), -foot, foot);
    const BentRest low = rest_of(coarse, at);
    FootPatches feet = two_feet(model(3), -foot, foot);
    FootedPlate plate = held_plate(model(3), std::move(feet), nullptr);
    const LargeMotionModel bent = large_motion_model(plate.model, 1);
    const BentStand stand{plate, bent, {}};
    const BentEdge edge = edge_of(plate.model, Side::left);
    const BentRest led =
        rest_bent(stand, edge, at, in_finer_nodes(stand, edge, at, coarse.model, low));
    const BentRest fresh = rest_bent(stand, edge, at);
    BentRest off = fresh;
    off.u *= 20;
    const BentRest lost = rest_bent(stand, edge, at, off);
    const double most = fresh.u.cwiseAbs().maxCoeff();
    CAPTURE(led.steps, fresh.steps, lost.steps);
    CHECK(led.steps < fresh.steps);
    CHECK(lost.steps >= fresh.steps);
    for (const BentRest* one : {&led, &lost}) {
        CHECK((one->u - fresh.u).cwiseAbs().maxCoeff() < 1e-8 * most);
        CHECK((one->contact.q - fresh.contact.q).cwiseAbs().maxCoeff() <
              1e-7 * fresh.contact.q.maxCoeff());
        CHECK(one->feet.balance < 1e-9);
    }
}

TEST_CASE("a load that would fold the board ends with what was reached") {
    // the feet sink by more than a metre, the soft tips stay on the snow
    FootedPlate plate =
        on_feet(strip_model(isotropic_section(1e6, 0.3, 0.006), nullptr, width), -foot, foot);
    CHECK_THROWS_WITH(rest_of(plate, condition(0.8, 5000, 5e3)), Catch::Contains("% of the load"));
}
