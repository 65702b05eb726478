#include "solver/edge.hpp"

#include <algorithm>
#include <cmath>
#include <new>
#include <optional>
#include <sstream>

#include "mesh/board/error.hpp"
#include "mesh/mesh_lines.hpp"
#include "solver/edge_conditions.hpp"
#include "solver/edge_mesh.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/edge_bars.hpp"
#include "solver/response/edge_weights.hpp"
#include "solver/stopwatch.hpp"
#include "solver/system/out_of_memory.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

// By measurement (benchmarks/edge_map.cpp): bars of about 1 % on hard snow.
constexpr int default_degree = 3;
constexpr double default_size = 0.04;
constexpr int gauss_points = 8;    // a segment: the ends of contact lie inside segments
constexpr int even_intervals = 12; // a segment of the curve that is shown

// One side's edge with everything that no condition changes.
struct ReadyEdge {
    EdgeCompliance compliance;
    EdgePoints points, even;
    VectorXd rest, even_rest;
    std::optional<TiltedEdge> tilted; // at the tilt of the last condition
    ContactState last;
};

ReadyEdge ready_edge(const Board& board, const FootedPlate& plate, Side side, int threads) {
    ReadyEdge ready;
    const double contact = board.planform.running_length / 2;
    ready.compliance = edge_compliance(plate, side, threads, {-contact, contact});
    ready.points = edge_points(ready.compliance.line, gauss(gauss_points));
    ready.even = edge_points(ready.compliance.line, even_rule(even_intervals));
    ready.rest = rest_heights(board, ready.points);
    ready.even_rest = rest_heights(board, ready.even);
    return ready;
}

double largest_slope(const EdgeCurve& curve) {
    return std::max(curve.slope.cwiseAbs().maxCoeff(), curve.loss.cwiseAbs().maxCoeff());
}

// One degree: the plate, its edges, and every condition on them.
class DegreePass {
  public:
    DegreePass(const Board& board, FootedPlate& plate, int threads)
        : board_(board), plate_(plate), threads_(threads) {}
    SectionCache* weights_with = nullptr; ///< also find the numbers' weights

    EdgeConditionResult condition(const EdgeCondition& condition, EdgeResult& result) {
        ReadyEdge& edge = side(condition.side, result);
        const Stopwatch watch(result.seconds["contact"]);
        if (!edge.tilted || edge.tilted->tilt != condition.tilt) {
            edge.tilted = tilt_edge(edge.compliance, edge.points, edge.rest, condition.tilt);
        }
        const SnowForce snow{condition.law, condition.hardness, condition.tilt};
        const FootLoad load{condition.force, condition.share};
        const ContactState state = solve_contact(*edge.tilted, snow, load, edge.last);
        EdgeConditionResult found;
        found.condition = condition;
        found.steps = state.steps;
        found.no_equilibrium = state.why;
        if (state.equilibrium) {
            const EdgeMotion motion = edge_motion(edge.compliance, snow.tilt, state);
            found.curve = edge_curve(edge.compliance.line, edge.even, edge.even_rest, snow, motion);
            const EdgeSituation situation{
                edge.compliance, *edge.tilted, state,
                found.curve,     load,         board_.planform.running_length};
            found.numbers = edge_numbers(situation);
            if (weights_with != nullptr) {
                found.weights = std::make_shared<SectionWeights>(edge_weights(
                    {plate_, situation, edge.even, edge.even_rest, snow}, *weights_with, threads_));
            }
            found.slope = largest_slope(found.curve);
            edge.last = state;
        }
        states_.push_back(state);
        return found;
    }

    // The whole board in every condition so far of one side: one block solve.
    void add_motion(std::vector<EdgeConditionResult>& results, Side side) {
        std::vector<std::size_t> which;
        for (std::size_t i = 0; i < results.size(); ++i) {
            if (results[i].condition.side == side && states_[i].equilibrium) {
                which.push_back(i);
            }
        }
        if (which.empty()) {
            return;
        }
        const EdgeLine& line = edge(side)->compliance.line;
        const auto count = static_cast<Index>(which.size());
        Eigen::MatrixXd force(2 * line.nodes(), count);
        Eigen::MatrixXd motion = Eigen::MatrixXd::Zero(foot_motions, count);
        for (Index c = 0; c < count; ++c) {
            const std::size_t i = which[static_cast<std::size_t>(c)];
            const double tilt = results[i].condition.tilt;
            force.col(c) << gradient_v(side, tilt) * states_[i].g, std::cos(tilt) * states_[i].g;
            motion.col(c).head(free_motions) = states_[i].a;
        }
        const Eigen::MatrixXd u = board_motion(plate_, line, force, motion, threads_);
        for (Index c = 0; c < count; ++c) {
            results[which[static_cast<std::size_t>(c)]].motion = u.col(c);
        }
    }

  private:
    std::optional<ReadyEdge>& edge(Side side) { return edges_[side == Side::left ? 0 : 1]; }

    ReadyEdge& side(Side side, EdgeResult& result) {
        std::optional<ReadyEdge>& found = edge(side);
        if (!found) {
            const Stopwatch watch(result.seconds["compliance"]);
            found = ready_edge(board_, plate_, side, threads_);
        }
        return *found;
    }

    const Board& board_;
    FootedPlate& plate_;
    int threads_;
    std::array<std::optional<ReadyEdge>, 2> edges_;
    std::vector<ContactState> states_;
};

FootedPlate on_its_feet(const Board& board, PlateModel model,
                        std::shared_ptr<const EliminationTree> tree, SolveMeans means) {
    FootPatches feet{board.stance->rear(), board.stance->front(),
                     foot_patch(board, model, board.stance->rear()),
                     foot_patch(board, model, board.stance->front())};
    return footed_plate(std::move(model), std::move(feet), std::move(tree), means);
}

void set_bars(std::vector<EdgeConditionResult>& fine,
              const std::vector<EdgeConditionResult>& coarse, int degree) {
    for (std::size_t i = 0; i < fine.size(); ++i) {
        const auto& before = degree < 2 ? fine[i].numbers : coarse[i].numbers;
        if (!fine[i].numbers.empty() && !before.empty()) {
            set_edge_bars(fine[i].numbers, before, degree);
        }
    }
}

// What does not hold any more of the linear plate, with the worst condition's number.
void warn(const Board& board, EdgeResult& result) {
    const CrossSection middle = cross_section(board, 0);
    const EdgeConditionResult* steepest = nullptr;
    const EdgeConditionResult* flattest = nullptr;
    for (EdgeConditionResult& one : result.conditions) {
        if (!one.no_equilibrium.empty()) {
            continue;
        }
        one.flattening =
            middle.width * middle.width * std::abs(bending_curvature(one.curve)) / middle.thickness;
        steepest = steepest == nullptr || one.slope > steepest->slope ? &one : steepest;
        flattest = flattest == nullptr || one.flattening > flattest->flattening ? &one : flattest;
    }
    std::ostringstream text;
    text.precision(2);
    if (steepest != nullptr && steepest->slope > slope_limit) {
        text << "a slope of " << steepest->slope << " passes " << slope_limit << " ("
             << description(steepest->condition) << "): turns that large are not modelled";
        result.warnings.push_back(text.str());
    }
    text.str("");
    if (flattest != nullptr && flattest->flattening > flattening_limit) {
        text << "b^2 / (R h) = " << flattest->flattening << " passes " << flattening_limit << " ("
             << description(flattest->condition)
             << "): the bent board holds its cross-section flatter than computed (Ashwell 1950)";
        result.warnings.push_back(text.str());
    }
}

struct DegreeStage {
    const Board& board;
    const std::vector<EdgeCondition>& conditions;
    const EdgeOptions& options;
    int threads;
    bool last; ///< the degree that is shown
};

// Every condition at the model's degree.
void solve_degree(const DegreeStage& stage, PlateModel model, SectionCache& sections,
                  EdgeResult& result) {
    const EdgeOptions& options = stage.options;
    const double done = stage.last ? 0.35 : 0.1;
    options.tell("solve", done + 0.1);
    FootedPlate plate = [&] {
        const Stopwatch watch(result.seconds["factor"]);
        return on_its_feet(stage.board, std::move(model),
                           tree_of(result.prepared, result.prepared->degree - (stage.last ? 0 : 1)),
                           {stage.threads, options.memory.get()});
    }();
    DegreePass pass(stage.board, plate, stage.threads);
    pass.weights_with = options.weights && stage.last ? &sections : nullptr;
    for (const EdgeCondition& condition : stage.conditions) {
        options.tell("contact", done + 0.2);
        result.conditions.push_back(pass.condition(condition, result));
    }
    if (stage.last && options.motion) {
        const Stopwatch watch(result.seconds["motion"]);
        pass.add_motion(result.conditions, Side::left);
        pass.add_motion(result.conditions, Side::right);
    }
    result.numbering = plate.model.numbering;
    result.unknowns = plate.model.unknowns();
}

double size_of(const EdgeOptions& options) {
    return options.max_size > 0 ? options.max_size : default_size;
}

SharedPrepared prepare(const Board& board, const Layup<double>& layup, const EdgeOptions& options) {
    auto prepared = std::make_shared<Prepared>();
    prepared->degree = options.degree > 0 ? options.degree : default_degree;
    prepared->max_size = size_of(options);
    prepared->mesh = mesh_planform(
        board, edge_mesh_request(layup, prepared->max_size, shape_of(board, options).get()));
    prepared->stations = edge_stations(board);
    prepared->lines = mesh_lines(board);
    for (const int p : {prepared->degree - 1, prepared->degree}) {
        if (p > 0) {
            prepared->trees[p < prepared->degree ? 0 : 1] = footed_tree(
                number_nodes(prepared->mesh, p), board.stance->rear(), board.stance->front());
        }
    }
    prepared->unknowns = unknowns_per_node * prepared->trees[1].dofs.nodes;
    return prepared;
}

} // namespace

MeshOptions edge_mesh_options(const Board& board, const EdgeOptions& options) {
    return edge_mesh_request(make_layup<double>(board), size_of(options),
                             shape_of(board, options).get());
}

SharedPrepared prepare_edge(const Board& board, const EdgeOptions& options) {
    check_conditions(board, {}); // it has feet
    return prepare(board, make_layup<double>(board), options);
}

EdgeResult run_edge(const Board& board, const std::vector<EdgeCondition>& conditions,
                    const EdgeOptions& options) {
    check_conditions(board, conditions);
    EdgeResult result;
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    options.tell("mesh", 0);
    if (options.prepared) {
        check_prepared(*options.prepared, board, options, edge_stations(board));
    }
    {
        const Stopwatch watch(result.seconds["mesh"]);
        result.prepared = options.prepared ? options.prepared : prepare(board, layup, options);
    }
    result.mesh = result.prepared->mesh;
    result.rest = shape_of(board, options);
    const int degree = result.prepared->degree;
    const int threads = options.thread_count();
    result.warnings = result.mesh.notes;
    std::vector<EdgeConditionResult> coarse;
    for (const int p : {degree - 1, degree}) {
        if (p == 0 || (p < degree && !options.bars)) {
            continue; // degree 1 has nothing to be held against: no bars
        }
        coarse = std::move(result.conditions);
        result.conditions.clear();
        int unknowns = 0;
        try {
            PlateModel model = [&] {
                options.tell("sections", p == degree ? 0.35 : 0.1);
                const Stopwatch watch(result.seconds["sections"]);
                PlateModel made = make_model(result.mesh, p, sections);
                made.rest = result.rest;
                return made;
            }();
            unknowns = static_cast<int>(model.unknowns());
            solve_degree({board, conditions, options, threads, p == degree}, std::move(model),
                         sections, result);
        } catch (const std::bad_alloc&) {
            throw out_of_memory(unknowns);
        }
    }
    if (options.bars) {
        set_bars(result.conditions, coarse, degree);
    }
    warn(board, result);
    return result;
}

} // namespace vrid
