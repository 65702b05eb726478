#include "solver/system/edge_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

#include "mesh/board/error.hpp"
#include "solver/system/element_dofs.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Thin plates in double give about 1e-9 at 2e4 unknowns; far above is a fault.
constexpr double residual_limit = 1e-6;
constexpr Index columns_at_once = 96; // keeps the right-hand sides far below the factor's size

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

// Every node follows the three motions that need no strain.
void set_rigid(const PlateModel& model, MatrixXd& motion) {
    for (int node = 0; node < model.numbering.nodes; ++node) {
        const Eigen::Vector2d X = model.numbering.position.col(node);
        motion(unknown(node, comp_w), motion_heave) = 1;
        motion(unknown(node, comp_w), motion_pitch) = X.x();
        motion(unknown(node, comp_bx), motion_pitch) = -1;
        motion(unknown(node, comp_w), motion_roll) = X.y();
        motion(unknown(node, comp_by), motion_roll) = -1;
    }
}

void set_front(const PlateModel& model, const FootPatches& feet, MatrixXd& motion) {
    for (const int node : feet.front) {
        const Eigen::Vector2d X = model.numbering.position.col(node);
        motion(unknown(node, comp_w), motion_front_heave) = 1;
        motion(unknown(node, comp_w), motion_front_pitch) = X.x() - feet.front_x;
        motion(unknown(node, comp_bx), motion_front_pitch) = -1;
        motion(unknown(node, comp_u), motion_front_slide) = 1;
        motion(unknown(node, comp_w), motion_front_roll) = X.y();
        motion(unknown(node, comp_by), motion_front_roll) = -1;
    }
}

// The motions of the front foot alone.
const std::vector<int> front_motions{motion_front_heave, motion_front_pitch, motion_front_slide,
                                     motion_front_roll};

// Lets the board follow the front foot: two rounds, the second one takes up the first one's
// rounding.
void follow_front(FootedPlate& plate, int threads) {
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

MatrixXd nodal_loads(const FootedPlate& plate, const EdgeLine& line, const MatrixXd& force) {
    MatrixXd rhs = MatrixXd::Zero(plate.model.unknowns(), force.cols());
    for (Index i = 0; i < line.nodes(); ++i) {
        const int node = line.node[static_cast<std::size_t>(i)];
        rhs.row(unknown(node, comp_v)) = force.row(i);
        rhs.row(unknown(node, comp_w)) = force.row(line.nodes() + i);
    }
    return rhs;
}

MatrixXd nodal_motion(const EdgeLine& line, const MatrixXd& u) {
    MatrixXd motion(2 * line.nodes(), u.cols());
    for (Index i = 0; i < line.nodes(); ++i) {
        const int node = line.node[static_cast<std::size_t>(i)];
        motion.row(i) = u.row(unknown(node, comp_v));
        motion.row(line.nodes() + i) = u.row(unknown(node, comp_w));
    }
    return motion;
}

namespace {

// The residual of one even combination of all columns stands for that of each.
void check(const FootedPlate& plate, const EdgeLine& line, const VectorXd& u, int threads) {
    MatrixXd force = nodal_loads(plate, line, VectorXd::Ones(2 * line.nodes()));
    MatrixXd missing = force - internal_forces(plate.model, u, threads);
    clear_fixed(plate.factor.fixed, missing);
    clear_fixed(plate.factor.fixed, force);
    const double residual = missing.norm() / force.norm();
    if (!(residual < residual_limit)) {
        std::ostringstream text;
        text << "relative residual " << residual << " is above " << residual_limit;
        throw SolveError("edge compliance", text.str());
    }
}

} // namespace

FootedPlate footed_plate(PlateModel model, FootPatches feet, SolveMeans means) {
    if (feet.rear.empty() || feet.front.empty()) {
        throw SolveError("feet", "a foot patch has no node of the mesh");
    }
    FootedPlate plate{std::move(model), std::move(feet), nullptr, {}, {}, {}};
    TreeOptions tree_options;
    tree_options.stations = {plate.feet.rear_x, plate.feet.front_x};
    plate.tree = std::make_unique<EliminationTree>(
        build_tree(element_dofs(plate.model.numbering), tree_options));
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
    set_rigid(plate.model, plate.motion);
    set_front(plate.model, plate.feet, plate.motion);
    follow_front(plate, means.threads);
    return plate;
}

EdgeCompliance edge_compliance(const FootedPlate& plate, Side side, int threads) {
    EdgeCompliance edge;
    edge.line = edge_line(plate.model, side);
    edge.feet = plate.feet;
    edge.K = plate.K;
    edge.R = nodal_motion(edge.line, plate.motion);
    edge.slope_R = edge_slopes(plate.model, edge.line, plate.motion);
    const Index count = 2 * edge.line.nodes();
    edge.C.resize(count, count);
    edge.slope_C.resize(edge.slope_R.rows(), count);
    VectorXd sum = VectorXd::Zero(plate.model.unknowns());
    for (Index from = 0; from < count; from += columns_at_once) {
        const Index columns = std::min(columns_at_once, count - from);
        const MatrixXd unit = MatrixXd::Identity(count, count).middleCols(from, columns);
        const MatrixXd u = solve(plate.factor, nodal_loads(plate, edge.line, unit), threads);
        edge.C.middleCols(from, columns) = nodal_motion(edge.line, u);
        edge.slope_C.middleCols(from, columns) = edge_slopes(plate.model, edge.line, u);
        sum += u.rowwise().sum();
    }
    check(plate, edge.line, sum, threads);
    edge.C = (edge.C + edge.C.transpose()).eval() / 2;
    return edge;
}

MatrixXd board_motion(const FootedPlate& plate, const EdgeLine& line, const MatrixXd& force,
                      const MatrixXd& motion, int threads) {
    return plate.motion * motion + solve(plate.factor, nodal_loads(plate, line, force), threads);
}

} // namespace vrid
