#include "solver/system/foot_motion.hpp"

#include <array>
#include <cmath>

#include "solver/system/loading.hpp"

namespace vrid {

namespace {

// A node pitches about the axis across the board through a place, or rolls about the one along it.
void pitch(const PlateModel& model, int node, Place about, Eigen::Ref<VectorXd> motion) {
    const Place at = place_at(model, model.numbering.position(0, node));
    motion(unknown(node, comp_w)) = at.X - about.X;
    motion(unknown(node, comp_bx)) = -1;
    if (model.rest) {
        motion(unknown(node, comp_u)) = about.z - at.z;
    }
}

void roll(const PlateModel& model, int node, Place about, Eigen::Ref<VectorXd> motion) {
    motion(unknown(node, comp_w)) = model.numbering.position(1, node);
    motion(unknown(node, comp_by)) = -cosine_at(model, node);
    if (model.rest) {
        motion(unknown(node, comp_v)) =
            about.z - place_at(model, model.numbering.position(0, node)).z;
    }
}

// Every node follows the three motions that need no strain; each foot rolls about its own middle,
// which for feet at two heights does need some.
void set_rigid(const PlateModel& model, const FootPatches& feet, MatrixXd& motion) {
    const double rear_z = place_at(model, feet.rear_x).z;
    for (int node = 0; node < model.numbering.nodes; ++node) {
        motion(unknown(node, comp_w), motion_heave) = 1;
        pitch(model, node, {0, rear_z}, motion.col(motion_pitch));
        roll(model, node, {0, rear_z}, motion.col(motion_roll));
    }
    for (const int node : feet.front) {
        roll(model, node, place_at(model, feet.front_x), motion.col(motion_roll));
    }
}

void set_front(const PlateModel& model, const FootPatches& feet, MatrixXd& motion) {
    const Place middle = place_at(model, feet.front_x);
    for (const int node : feet.front) {
        motion(unknown(node, comp_w), motion_front_heave) = 1;
        pitch(model, node, middle, motion.col(motion_front_pitch));
        motion(unknown(node, comp_u), motion_front_slide) = 1;
        roll(model, node, middle, motion.col(motion_front_roll));
    }
}

// One foot in a state of the free motions.
struct Foot {
    const std::vector<int>& nodes;
    Place centre; // at rest
    bool front;
    double angle, u, w; // of the centre
};

std::array<Foot, 2> feet_in(const PlateModel& model, const FootPatches& feet,
                            const FreeMotions& a) {
    const Place rear = place_at(model, feet.rear_x);
    const Place front = place_at(model, feet.front_x);
    return {Foot{feet.rear, rear, false, a(motion_pitch), 0,
                 a(motion_heave) + a(motion_pitch) * rear.X},
            Foot{feet.front, front, true, a(motion_pitch) + a(motion_front_pitch),
                 (rear.z - front.z) * a(motion_pitch) + a(motion_front_slide),
                 a(motion_heave) + a(motion_pitch) * front.X + a(motion_front_heave)}};
}

// From the foot's centre to a node, turned with the foot: (ahead, above) [m].
Eigen::Vector2d lever(const PlateModel& model, const Foot& foot, int node) {
    const Place at = place_at(model, model.numbering.position(0, node));
    const double dX = at.X - foot.centre.X;
    const double dZ = at.z - foot.centre.z;
    const double c = std::cos(foot.angle);
    const double s = std::sin(foot.angle);
    return {dX * c - dZ * s, dX * s + dZ * c};
}

// Small turn of a director about e_y, as bx: minus its normal component.
double normal_component(const VectorXd& u, int node) {
    return std::sqrt(1 - u.segment<2>(unknown(node, comp_bx)).squaredNorm());
}

} // namespace

Place place_at(const PlateModel& model, double x) {
    return model.rest ? Place{model.rest->place(x), model.rest->z(x)} : Place{x, 0};
}

MatrixXd small_foot_motions(const PlateModel& model, const FootPatches& feet) {
    MatrixXd motion = MatrixXd::Zero(model.unknowns(), foot_motions);
    set_rigid(model, feet, motion);
    set_front(model, feet, motion);
    return motion;
}

void turn_feet(const PlateModel& model, const FootPatches& feet, const FreeMotions& a,
               VectorXd& u) {
    for (const Foot& foot : feet_in(model, feet, a)) {
        for (const int node : foot.nodes) {
            const Place at = place_at(model, model.numbering.position(0, node));
            const Eigen::Vector2d now = lever(model, foot, node);
            u.segment<unknowns_per_node>(unknown(node, comp_u))
                << foot.u + now.x() - (at.X - foot.centre.X),
                0, foot.w + now.y() - (at.z - foot.centre.z), -std::sin(foot.angle), 0;
        }
    }
}

MatrixXd bent_foot_motions(const PlateModel& model, const FootPatches& feet, const FreeMotions& a,
                           const VectorXd& u) {
    MatrixXd motion = MatrixXd::Zero(model.unknowns(), foot_motions);
    const auto both = feet_in(model, feet, a);
    const double height = both[0].centre.z + both[0].w;
    for (int node = 0; node < model.numbering.nodes; ++node) {
        const Place at = place_at(model, model.numbering.position(0, node));
        motion(unknown(node, comp_w), motion_heave) = 1;
        motion(unknown(node, comp_u), motion_pitch) = height - at.z - u(unknown(node, comp_w));
        motion(unknown(node, comp_w), motion_pitch) = at.X + u(unknown(node, comp_u));
        motion(unknown(node, comp_bx), motion_pitch) = -normal_component(u, node);
    }
    for (const Foot& foot : both) {
        for (const int node : foot.nodes) {
            const Eigen::Vector2d now = lever(model, foot, node);
            const auto turn = [&](FootMotion of, double slide, double rise) {
                motion(unknown(node, comp_u), of) = slide - now.y();
                motion(unknown(node, comp_w), of) = rise + now.x();
                motion(unknown(node, comp_bx), of) = -std::cos(foot.angle);
            };
            turn(motion_pitch, foot.front ? both[0].centre.z - foot.centre.z : 0, foot.centre.X);
            if (foot.front) {
                motion(unknown(node, comp_w), motion_front_heave) = 1;
                motion(unknown(node, comp_u), motion_front_slide) = 1;
                turn(motion_front_pitch, 0, 0);
            }
        }
    }
    return motion;
}

Eigen::Matrix<double, Eigen::Dynamic, 2> bent_foot_rolls(const PlateModel& model,
                                                         const FootPatches& feet,
                                                         const FreeMotions& a, const VectorXd& u) {
    Eigen::Matrix<double, Eigen::Dynamic, 2> rolls =
        Eigen::Matrix<double, Eigen::Dynamic, 2>::Zero(model.unknowns(), 2);
    for (const Foot& foot : feet_in(model, feet, a)) {
        const double height = foot.centre.z + foot.w;
        auto roll = rolls.col(foot.front ? 1 : 0);
        for (const int node : foot.nodes) {
            const double x = model.numbering.position(0, node);
            const RestFrame frame = frame_at(model, node);
            const double by = u(unknown(node, comp_by));
            roll(unknown(node, comp_v)) = height - place_at(model, x).z - u(unknown(node, comp_w));
            roll(unknown(node, comp_w)) =
                model.numbering.position(1, node) + u(unknown(node, comp_v));
            roll(unknown(node, comp_bx)) = frame.S * by;
            roll(unknown(node, comp_by)) =
                -frame.C * normal_component(u, node) - frame.S * u(unknown(node, comp_bx));
        }
    }
    return rolls;
}

Eigen::Matrix<double, free_motions, free_motions> turn_stiffness(const PlateModel& model,
                                                                 const FootPatches& feet,
                                                                 const FreeMotions& a,
                                                                 const VectorXd& force) {
    Eigen::Matrix<double, free_motions, free_motions> K;
    K.setZero();
    for (const Foot& foot : feet_in(model, feet, a)) {
        double moment = 0; // by the angle
        for (const int node : foot.nodes) {
            const Eigen::Vector2d now = lever(model, foot, node);
            moment += force(unknown(node, comp_u)) * now.x() +
                      force(unknown(node, comp_w)) * now.y() -
                      force(unknown(node, comp_bx)) * std::sin(foot.angle);
        }
        const std::vector<int> turning = foot.front
                                             ? std::vector<int>{motion_pitch, motion_front_pitch}
                                             : std::vector<int>{motion_pitch};
        K(turning, turning).array() += moment;
    }
    return K;
}

} // namespace vrid
