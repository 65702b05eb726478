#include "solver/system/edge_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

#include "mesh/board/error.hpp"
#include "solver/system/element_dofs.hpp"
#include "solver/system/inverse_product.hpp"
#include "solver/system/large_motion.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

using Loads = Eigen::SparseMatrix<double>;

// Thin plates in double give about 1e-9 at 2e4 unknowns; far above is a fault.
constexpr double residual_limit = 1e-6;

// The motions that the board follows with strain: those of the front foot alone; on a rest shape
// the roll of both, and the pitch, which elements turn rigidly only as well as they follow the
// curve; once bent, its stresses turn with the pitch, too.
std::vector<FootMotion> straining_motions(const FootedPlate& plate) {
    if (!plate.tangent.empty()) {
        return {motion_pitch, motion_front_heave, motion_front_pitch, motion_front_slide};
    }
    std::vector<FootMotion> all{motion_front_heave, motion_front_pitch, motion_front_slide,
                                motion_front_roll};
    if (plate.model.rest) {
        all.push_back(motion_pitch);
        all.push_back(motion_roll);
    }
    return all;
}

// K u for each column of u, supports ignored.
MatrixXd plate_forces(const FootedPlate& plate, const MatrixXd& u, int threads) {
    if (plate.tangent.empty()) {
        return internal_forces(plate.model, u, threads);
    }
    return tangent_forces(plate.model, plate.tangent, u);
}

// Lets the board follow the feet: two rounds, the second one takes up the first one's rounding.
void follow_feet(FootedPlate& plate, int threads) {
    const std::vector<FootMotion> motions = straining_motions(plate);
    MatrixXd u = plate.motion(Eigen::all, motions);
    MatrixXd Ku = plate_forces(plate, u, threads);
    for (int round = 0; round < 2; ++round) {
        MatrixXd missing = -Ku;
        clear_fixed(plate.factor.fixed, missing);
        u += solve(plate.factor, missing, threads);
        Ku = plate_forces(plate, u, threads);
    }
    MatrixXd missing = Ku;
    clear_fixed(plate.factor.fixed, missing);
    const double residual = missing.norm() / Ku.norm();
    if (!(residual < residual_limit)) {
        throw SolveError("feet", "relative residual " + std::to_string(residual));
    }
    const MatrixXd energy = u.transpose() * Ku;
    plate.motion(Eigen::all, motions) = u;
    plate.K.setZero();
    plate.K(motions, motions) = (energy + energy.transpose()) / 2;
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
    MatrixXd missing = force - plate_forces(plate, u, threads);
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

FootedPlate held_plate(PlateModel model, FootPatches feet,
                       std::shared_ptr<const EliminationTree> tree) {
    if (feet.rear.empty() || feet.front.empty()) {
        throw SolveError("feet", "a foot patch has no node of the mesh");
    }
    if (!tree) {
        tree = std::make_shared<const EliminationTree>(
            footed_tree(model.numbering, feet.rear_x, feet.front_x));
    }
    FootedPlate plate{std::move(model), std::move(feet), std::move(tree), {}, {}, {}, {}};
    std::vector<char>& fixed = plate.factor.fixed;
    fixed.assign(static_cast<std::size_t>(plate.model.unknowns()), 0);
    for (const auto* foot : {&plate.feet.rear, &plate.feet.front}) {
        for (const int node : *foot) {
            std::fill_n(fixed.begin() + unknown(node, comp_u), unknowns_per_node, 1);
        }
    }
    return plate;
}

FootedPlate footed_plate(PlateModel model, FootPatches feet,
                         std::shared_ptr<const EliminationTree> tree, SolveMeans means) {
    FootedPlate plate = held_plate(std::move(model), std::move(feet), std::move(tree));
    FactorOptions options;
    options.means = means;
    const PlateModel& of = plate.model;
    plate.factor = factorise(
        *plate.tree, [&of](int element, MatrixXd& K) { quad_stiffness(of, element, K); },
        plate.factor.fixed, options);
    plate.motion = small_foot_motions(plate.model, plate.feet);
    follow_feet(plate, means.threads);
    return plate;
}

void bend_plate(FootedPlate& plate, std::vector<MatrixXd> tangent, MatrixXd motions,
                SolveMeans means) {
    plate.tangent = std::move(tangent);
    FactorOptions options;
    options.means = means;
    plate.factor.fronts.clear(); // their memory serves the next ones
    plate.factor = factorise(
        *plate.tree,
        [&](int quad, MatrixXd& K) { K = plate.tangent[static_cast<std::size_t>(quad)]; },
        plate.factor.fixed, options);
    plate.motion = std::move(motions);
    follow_feet(plate, means.threads);
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
    edge.R = at_nodes.transpose() * plate.motion;
    Loads all = at_nodes;
    if (plate.tangent.empty()) { // a bent board's slopes are read off its own motion
        const Loads at_slopes = edge_slope_loads(plate.model, edge.line);
        edge.slope_R = at_slopes.transpose() * plate.motion;
        all.resize(at_nodes.rows(), at_nodes.cols() + at_slopes.cols());
        all.leftCols(at_nodes.cols()) = at_nodes;
        all.rightCols(at_slopes.cols()) = at_slopes;
    }
    const MatrixXd follows = inverse_product(plate.factor, all, at_nodes.cols());
    edge.C = follows.topRows(at_nodes.cols());
    edge.slope_C = follows.bottomRows(all.cols() - at_nodes.cols());
    check(plate, at_nodes, edge.C, threads);
    return edge;
}

MatrixXd board_motion(const FootedPlate& plate, const EdgeLine& line, const MatrixXd& force,
                      const MatrixXd& motion, int threads) {
    return plate.motion * motion +
           solve(plate.factor, nodal_loads(plate.model, line) * force, threads);
}

} // namespace vrid
