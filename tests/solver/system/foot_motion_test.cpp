#include "solver/system/foot_motion.hpp"

#include <cmath>

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "solver/system/loading.hpp"
#include "tests/solver/system/grid_model.hpp"

using namespace vrid;
using Eigen::MatrixXd;
using Eigen::Vector3d;
using Eigen::VectorXd;

namespace {

FootPatches two_feet(const PlateModel& model) {
    return {-0.2, 0.375, strip_nodes(model, -0.3, -0.1), strip_nodes(model, 0.25, 0.5)};
}

FreeMotions moved_feet() {
    FreeMotions a;
    a << 0.03, 0.2, -0.05, 0.3, 0.02; // heave, pitch, the front foot's heave, pitch, slide
    return a;
}

// Where a node and its director's tip are in space, directors in board axes.
Vector3d node_place(const PlateModel& model, const VectorXd& u, int node) {
    const Place at = place_at(model, model.numbering.position(0, node));
    return Vector3d(at.X, model.numbering.position(1, node), at.z) +
           u.segment<3>(unknown(node, comp_u));
}

std::vector<int> nodes_of_both(const FootPatches& feet) {
    std::vector<int> all = feet.rear;
    all.insert(all.end(), feet.front.begin(), feet.front.end());
    return all;
}

const std::vector<std::vector<double>> surfaces{{}, {0.12, 0, 0.08}}; // flat; with tips

} // namespace

TEST_CASE("a turned foot keeps its shape, and its centre goes where the motions say") {
    for (const auto& heights : surfaces) {
        const PlateModel model = tests::grid_model(2, heights);
        const FootPatches feet = two_feet(model);
        VectorXd u = VectorXd::Zero(model.unknowns());
        const FreeMotions a = moved_feet();
        turn_feet(model, feet, a, u);
        const VectorXd rest = VectorXd::Zero(model.unknowns());
        for (const auto* foot : {&feet.rear, &feet.front}) {
            const bool front = foot == &feet.front;
            const double angle = a(motion_pitch) + (front ? a(motion_front_pitch) : 0);
            const Place centre = place_at(model, front ? feet.front_x : feet.rear_x);
            const Vector3d middle(centre.X, 0, centre.z);
            const double rise =
                a(motion_heave) + a(motion_pitch) * centre.X + (front ? a(motion_front_heave) : 0);
            const double slide =
                front ? (place_at(model, feet.rear_x).z - centre.z) * a(motion_pitch) +
                            a(motion_front_slide)
                      : 0;
            const Eigen::AngleAxisd turn(-angle, Vector3d::UnitY()); // nose up
            for (const int node : *foot) {
                const Vector3d wanted = middle + Vector3d(slide, 0, rise) +
                                        turn * (node_place(model, rest, node) - middle);
                CHECK((node_place(model, u, node) - wanted).norm() < 1e-14);
                CHECK(u(unknown(node, comp_bx)) == Approx(-std::sin(angle)));
            }
        }
    }
}

TEST_CASE("the motions of bent feet are the derivatives of where they are") {
    for (const auto& heights : surfaces) {
        const PlateModel model = tests::grid_model(2, heights);
        const FootPatches feet = two_feet(model);
        const FreeMotions a = moved_feet();
        VectorXd u = VectorXd::Zero(model.unknowns());
        turn_feet(model, feet, a, u);
        const MatrixXd motions = bent_foot_motions(model, feet, a, u);
        constexpr double h = 1e-5;
        for (int k = 0; k < free_motions; ++k) {
            FreeMotions more = a, less = a;
            more(k) += h;
            less(k) -= h;
            VectorXd high = u, low = u;
            turn_feet(model, feet, more, high);
            turn_feet(model, feet, less, low);
            for (const int node : nodes_of_both(feet)) {
                const Eigen::Index at = unknown(node, comp_u);
                CHECK(
                    (motions.col(k).segment<5>(at) - (high - low).segment<5>(at) / (2 * h)).norm() <
                    1e-9);
            }
        }
        CHECK(motions.rightCols(2).isZero());
        // dead forces on turning levers: less the second derivative of their work
        VectorXd force(model.unknowns());
        for (Eigen::Index i = 0; i < force.size(); ++i) {
            force(i) = std::sin(1.7 * static_cast<double>(i));
        }
        const auto K = turn_stiffness(model, feet, a, force);
        const auto works = [&](const FreeMotions& state) {
            VectorXd there = VectorXd::Zero(model.unknowns());
            turn_feet(model, feet, state, there);
            VectorXd on_feet = VectorXd::Zero(model.unknowns());
            for (const int node : nodes_of_both(feet)) {
                on_feet.segment<5>(unknown(node, comp_u)) = force.segment<5>(unknown(node, comp_u));
            }
            return VectorXd(bent_foot_motions(model, feet, state, there).transpose() * on_feet);
        };
        for (int k = 0; k < free_motions; ++k) {
            FreeMotions more = a, less = a;
            more(k) += h;
            less(k) -= h;
            const VectorXd change = (works(more) - works(less)) / (2 * h);
            CHECK((K.col(k) + change.head<free_motions>()).norm() < 1e-8);
        }
    }
}

TEST_CASE("at rest the bent feet's motions are the small ones, and those are rigid") {
    for (const auto& heights : surfaces) {
        const PlateModel model = tests::grid_model(2, heights);
        const FootPatches feet = two_feet(model);
        const VectorXd rest = VectorXd::Zero(model.unknowns());
        const MatrixXd small = small_foot_motions(model, feet);
        const MatrixXd bent = bent_foot_motions(model, feet, FreeMotions::Zero(), rest);
        CHECK((small.leftCols<free_motions>() - bent.leftCols<free_motions>()).norm() < 1e-13);
        const auto rolls = bent_foot_rolls(model, feet, FreeMotions::Zero(), rest);
        for (const int node : nodes_of_both(feet)) {
            const bool front = node_place(model, rest, node).x() > 0;
            const Eigen::Index at = unknown(node, comp_u);
            CHECK((small.col(motion_roll).segment<5>(at) - rolls.col(front ? 1 : 0).segment<5>(at))
                      .norm() < 1e-14);
        }
        CHECK(small.col(motion_front_roll).norm() == Approx(rolls.col(1).norm()));
        // a small rigid motion changes no distance: (x - y) . (v(x) - v(y)) = 0
        for (const FootMotion k : {motion_heave, motion_pitch, motion_front_pitch}) {
            for (const int node : feet.front) {
                const int other = k == motion_front_pitch ? feet.front[0] : 0;
                const Vector3d apart =
                    node_place(model, rest, node) - node_place(model, rest, other);
                CHECK(std::abs(apart.dot(small.col(k).segment<3>(unknown(node, comp_u)) -
                                         small.col(k).segment<3>(unknown(other, comp_u)))) < 1e-15);
            }
        }
    }
}

TEST_CASE("feet roll about the line along the board through where their middle is now") {
    for (const auto& heights : surfaces) {
        const PlateModel model = tests::grid_model(2, heights);
        const FootPatches feet = two_feet(model);
        const FreeMotions a = moved_feet();
        VectorXd u = VectorXd::Zero(model.unknowns());
        turn_feet(model, feet, a, u);
        for (const int node : nodes_of_both(feet)) {
            u(unknown(node, comp_by)) = 0.1; // not only what pitching makes of a director
        }
        const auto rolls = bent_foot_rolls(model, feet, a, u);
        for (const auto* foot : {&feet.rear, &feet.front}) {
            const bool front = foot == &feet.front;
            const double x = front ? feet.front_x : feet.rear_x;
            const double height = place_at(model, x).z + a(motion_heave) +
                                  a(motion_pitch) * place_at(model, x).X +
                                  (front ? a(motion_front_heave) : 0);
            for (const int node : *foot) {
                const auto roll = rolls.col(front ? 1 : 0);
                CHECK(rolls.col(front ? 0 : 1).segment<5>(unknown(node, comp_u)).isZero());
                const Vector3d arm = node_place(model, u, node) - Vector3d(0, 0, height);
                const Vector3d wanted = Vector3d::UnitX().cross(arm);
                CHECK(std::abs(wanted.y() - roll(unknown(node, comp_v))) < 1e-14);
                CHECK(std::abs(wanted.z() - roll(unknown(node, comp_w))) < 1e-14);
                // the director, turned about X: in board axes along the rest surface
                const RestFrame frame =
                    model.rest ? model.rest->frame(model.numbering.position(0, node)) : RestFrame{};
                const Vector3d t1(frame.C, 0, frame.S), t3(-frame.S, 0, frame.C);
                const double bx = u(unknown(node, comp_bx));
                const Vector3d d =
                    bx * t1 + 0.1 * Vector3d::UnitY() + std::sqrt(0.99 - bx * bx) * t3;
                const Vector3d turned = Vector3d::UnitX().cross(d);
                CHECK(std::abs(turned.y() - roll(unknown(node, comp_by))) < 1e-14);
                CHECK(std::abs(turned.dot(t1) - roll(unknown(node, comp_bx))) < 1e-14);
            }
        }
    }
}
