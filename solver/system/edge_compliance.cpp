#include "solver/system/edge_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

#include "mesh/board/error.hpp"
#include "solver/system/element_dofs.hpp"
#include "solver/system/inverse_product.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Loads = Eigen::SparseMatrix<double>;

// Thin plates in double give about 1e-9 at 2e4 unknowns; far above is a fault.
constexpr double residual_limit = 1e-6;

Index unknown(int node, Component c) {
    return Index(unknowns_per_node) * node + c;
}

void clear_fixed(const std::vector<char>& fixed, MatrixXd& rows) {
    for (Index k = 0; k < rows.rows(); ++k) {
        if (fixed[static_cast<std::size_t>(k)] != 0) {
            rows.row(k).setZero();
        }
    }
}

// Places above the floor: of the flat blank, its own.
struct Place {
    double X, z;
};

Place place_at(const PlateModel& model, double x) {
    return model.rest ? Place{model.rest->place(x), model.rest->z(x)} : Place{x, 0};
}

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

// The motions that the board follows with strain: those of the front foot alone, and on a rest
// shape the roll of both.
std::vector<int> straining_motions(const PlateModel& model) {
    std::vector<int> all{motion_front_heave, motion_front_pitch, motion_front_slide,
                         motion_front_roll};
    if (model.rest) {
        all.push_back(motion_roll);
    }
    return all;
}

// Lets the board follow the front foot: two rounds, the second one takes up the first one's
// rounding.
void follow_front(FootedPlate& plate, int threads) {
    const std::vector<int> front_motions = straining_motions(plate.model);
    const auto count = static_cast<Index>(front_motions.size());
    MatrixXd u(plate.motion.rows(), count);
    for (Index c = 0; c < count; ++c) {
        u.col(c) = plate.motion.col(front_motions[static_cast<std::size_t>(c)]);
    }
    MatrixXd Ku = internal_forces(plate.model, u, threads);
    for (int round = 0; round < 2; ++round) {
        MatrixXd missing = -Ku;
        clear_fixed(plate.factor.fixed, missing);
        u += solve(plate.factor, missing, threads);
        Ku = internal_forces(plate.model, u, threads);
    }
    MatrixXd missing = Ku;
    clear_fixed(plate.factor.fixed, missing);
    const double residual = missing.norm() / Ku.norm();
    if (!(residual < residual_limit)) {
        throw SolveError("feet", "relative residual " + std::to_string(residual));
    }
    const MatrixXd energy = u.transpose() * Ku;
    for (Index c = 0; c < count; ++c) {
        const int to = front_motions[static_cast<std::size_t>(c)];
        plate.motion.col(to) = u.col(c);
        for (Index d = 0; d < count; ++d) {
            plate.K(to, front_motions[static_cast<std::size_t>(d)]) =
                (energy(c, d) + energy(d, c)) / 2;
        }
    }
}

} // namespace

Eigen::SparseMatrix<double> nodal_loads(const PlateModel& model, const EdgeLine& line) {
    std::vector<Eigen::Triplet<double>> entries;
    for (Index i = 0; i < line.nodes(); ++i) {
        const int node = line.node[static_cast<std::size_t>(i)];
        const auto column = static_cast<int>(i);
        entries.emplace_back(static_cast<int>(unknown(node, comp_v)), column, 1.0);
        entries.emplace_back(static_cast<int>(unknown(node, comp_w)),
                             static_cast<int>(line.nodes()) + column, 1.0);
    }
    Eigen::SparseMatrix<double> loads(model.unknowns(), 2 * line.nodes());
    loads.setFromTriplets(entries.begin(), entries.end());
    return loads;
}

namespace {

// One even combination of all columns stands for each: what it leaves of the load, and how far C
// is from its motion.
void check(const FootedPlate& plate, const Loads& loads, const MatrixXd& C, int threads) {
    const VectorXd even = VectorXd::Ones(C.cols());
    MatrixXd force = loads * even;
    const MatrixXd u = solve(plate.factor, force, threads);
    MatrixXd missing = force - internal_forces(plate.model, u, threads);
    clear_fixed(plate.factor.fixed, missing);
    clear_fixed(plate.factor.fixed, force);
    const VectorXd motion = loads.transpose() * u.col(0);
    const double residual =
        std::max(missing.norm() / force.norm(), (C * even - motion).norm() / motion.norm());
    if (!(residual < residual_limit)) {
        std::ostringstream text;
        text << "relative residual " << residual << " is above " << residual_limit;
        throw SolveError("edge compliance", text.str());
    }
}

} // namespace

EliminationTree footed_tree(const Numbering& numbering, double rear_x, double front_x) {
    TreeOptions options;
    options.stations = {rear_x, front_x};
    return build_tree(element_dofs(numbering), options);
}

FootedPlate footed_plate(PlateModel model, FootPatches feet,
                         std::shared_ptr<const EliminationTree> tree, SolveMeans means) {
    if (feet.rear.empty() || feet.front.empty()) {
        throw SolveError("feet", "a foot patch has no node of the mesh");
    }
    if (!tree) {
        tree = std::make_shared<const EliminationTree>(
            footed_tree(model.numbering, feet.rear_x, feet.front_x));
    }
    FootedPlate plate{std::move(model), std::move(feet), std::move(tree), {}, {}, {}};
    std::vector<char> fixed(static_cast<std::size_t>(plate.model.unknowns()), 0);
    for (const auto* foot : {&plate.feet.rear, &plate.feet.front}) {
        for (const int node : *foot) {
            std::fill_n(fixed.begin() + unknown(node, comp_u), unknowns_per_node, 1);
        }
    }
    FactorOptions options;
    options.means = means;
    const PlateModel& of = plate.model;
    plate.factor = factorise(
        *plate.tree, [&of](int element, MatrixXd& K) { quad_stiffness(of, element, K); }, fixed,
        options);
    plate.motion = MatrixXd::Zero(plate.model.unknowns(), foot_motions);
    plate.K.setZero();
    set_rigid(plate.model, plate.feet, plate.motion);
    set_front(plate.model, plate.feet, plate.motion);
    follow_front(plate, means.threads);
    return plate;
}

EdgeCompliance edge_compliance(const FootedPlate& plate, Side side, int threads,
                               const std::vector<double>& chords) {
    EdgeCompliance edge;
    edge.line = edge_line(plate.model, side);
    edge.line.chords = chords;
    edge.feet = plate.feet;
    edge.curved = plate.model.rest != nullptr;
    edge.front_place = place_at(plate.model, plate.feet.front_x).X;
    edge.rear_place = place_at(plate.model, plate.feet.rear_x).X;
    edge.K = plate.K;
    const Loads at_nodes = nodal_loads(plate.model, edge.line);
    const Loads at_slopes = edge_slope_loads(plate.model, edge.line);
    edge.R = at_nodes.transpose() * plate.motion;
    edge.slope_R = at_slopes.transpose() * plate.motion;
    Loads all(at_nodes.rows(), at_nodes.cols() + at_slopes.cols());
    all.leftCols(at_nodes.cols()) = at_nodes;
    all.rightCols(at_slopes.cols()) = at_slopes;
    const MatrixXd follows = inverse_product(plate.factor, all, at_nodes.cols());
    edge.C = follows.topRows(at_nodes.cols());
    edge.slope_C = follows.bottomRows(at_slopes.cols());
    check(plate, at_nodes, edge.C, threads);
    return edge;
}

MatrixXd board_motion(const FootedPlate& plate, const EdgeLine& line, const MatrixXd& force,
                      const MatrixXd& motion, int threads) {
    return plate.motion * motion +
           solve(plate.factor, nodal_loads(plate.model, line) * force, threads);
}

} // namespace vrid
