#include "solver/edge.hpp"

#include <algorithm>
#include <cmath>
#include <new>
#include <sstream>

#include "mesh/board/digits_apart.hpp"
#include "mesh/board/error.hpp"
#include "solver/bent_limits.hpp"
#include "solver/edge_conditions.hpp"
#include "solver/edge_pass.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/edge_bars.hpp"
#include "solver/system/out_of_memory.hpp"
#include "solver/system/stopwatch.hpp"

namespace vrid {

namespace {

// By measurement (benchmarks/edge_map.cpp): bars of about 1 % on hard snow.
constexpr int contact_degree = 3;
constexpr double contact_size = 0.04;

void set_bars(std::vector<EdgeConditionResult>& fine,
              const std::vector<EdgeConditionResult>& coarse, int degree) {
    for (std::size_t i = 0; i < fine.size(); ++i) {
        const auto& before = degree < 2 ? fine[i].numbers : coarse[i].numbers;
        if (!fine[i].numbers.empty() && !before.empty()) {
            set_edge_bars(fine[i].numbers, before, degree);
            if (degree >= 2) {
                widen_by_curve(fine[i].numbers, fine[i].curve);
            }
        }
    }
}

// What does not hold any more of the theory, with the worst condition's number.
void warn_small(const std::vector<const EdgeConditionResult*>& at_rest,
                std::vector<std::string>& warnings) {
    const auto worst = [&](double EdgeConditionResult::*number) {
        return **std::ranges::max_element(
            at_rest, [&](const auto* a, const auto* b) { return a->*number < b->*number; });
    };
    std::ostringstream text;
    const EdgeConditionResult& steepest = worst(&EdgeConditionResult::slope);
    if (steepest.slope > slope_limit) {
        text.precision(digits_apart(steepest.slope, slope_limit, 2));
        text << "a slope of " << steepest.slope << " passes " << slope_limit << " ("
             << description(steepest.condition)
             << "): turns that large are not modelled, but with --bent";
        warnings.push_back(text.str());
    }
    text.str("");
    const EdgeConditionResult& flattest = worst(&EdgeConditionResult::flattening);
    if (flattest.flattening > flattening_limit) {
        text.precision(digits_apart(flattest.flattening, flattening_limit, 2));
        text << "b^2 / (R h) = " << flattest.flattening << " passes " << flattening_limit << " ("
             << description(flattest.condition)
             << "): the bent board holds its cross-section flatter than computed (Ashwell 1950)";
        warnings.push_back(text.str());
    }
}

void warn(const Board& board, EdgeResult& result) {
    const CrossSection middle = cross_section(board, 0);
    std::vector<const EdgeConditionResult*> at_rest;
    double least_c = 1;
    double most_strain = 0;
    for (EdgeConditionResult& one : result.conditions) {
        if (one.no_equilibrium.empty()) {
            one.flattening = middle.width * middle.width * std::abs(bending_curvature(one.curve)) /
                             middle.thickness;
            least_c = std::min(least_c, one.least_c);
            most_strain = std::max(most_strain, one.most_strain);
            at_rest.push_back(&one);
        }
    }
    if (result.bent) {
        const auto passed = bent_warnings("bent on its edge", least_c, most_strain);
        result.warnings.insert(result.warnings.end(), passed.begin(), passed.end());
    } else if (!at_rest.empty()) {
        warn_small(at_rest, result.warnings);
    }
}

struct DegreeStage {
    const Board& board;
    const std::vector<EdgeCondition>& conditions;
    const EdgeOptions& options;
    int threads;
    bool last;        ///< the degree that is shown
    BentRests& rests; ///< of the lower degree, then of this one; no conditions: none yet
};

// Every condition at the model's degree.
void solve_degree(const DegreeStage& stage, PlateModel model, SectionCache& sections,
                  EdgeResult& result) {
    const EdgeOptions& options = stage.options;
    const double done = stage.last ? 0.35 : 0.1;
    options.tell("solve", done + 0.1);
    FootedPlate plate = [&] {
        const Stopwatch watch(result.seconds["factor"]);
        const auto tree = tree_of(result.prepared, result.prepared->degree - (stage.last ? 0 : 1));
        return result.bent ? held_on_its_feet(stage.board, std::move(model), tree)
                           : on_its_feet(stage.board, std::move(model), tree,
                                         {stage.threads, options.memory.get(), [&](double share) {
                                              options.tell("solve", done + 0.1 * (1 + share));
                                          }});
    }();
    EdgePass pass(stage.board, plate, options, stage.rests.at.empty() ? nullptr : &stage.rests);
    for (const EdgeCondition& condition : stage.conditions) {
        options.tell("contact", done + 0.2);
        result.conditions.push_back(pass.condition(
            condition, options.weights && stage.last ? &sections : nullptr, result.seconds));
    }
    if (stage.last && options.motion) {
        const Stopwatch watch(result.seconds["motion"]);
        pass.add_motion(result.conditions, Side::left);
        pass.add_motion(result.conditions, Side::right);
    }
    result.numbering = plate.model.numbering;
    result.unknowns = plate.model.unknowns();
    if (result.bent && !stage.last) {
        stage.rests = {std::move(plate.model), pass.bent_rests()};
    }
}

double size_of(const EdgeOptions& options) {
    return options.max_size > 0 ? options.max_size : contact_size;
}

SharedPrepared prepare(const Board& board, const Layup<double>& layup, const EdgeOptions& options) {
    const double size = size_of(options);
    Mesh mesh =
        mesh_planform(board, edge_mesh_request(layup, size, shape_of(board, options).get()));
    return prepared_on(board, std::move(mesh), options.degree > 0 ? options.degree : contact_degree,
                       size, edge_stations(board), [&](const Numbering& numbering) {
                           return footed_tree(numbering, board.stance->rear(),
                                              board.stance->front());
                       });
}

} // namespace

MeshOptions edge_mesh_options(const Board& board, const EdgeOptions& options) {
    return edge_mesh_request(make_layup<double>(board), size_of(options),
                             shape_of(board, options).get());
}

SharedPrepared prepare_edge(const Board& board, const EdgeOptions& options) {
    check_conditions(board, {}, options.flat); // it has feet
    return prepare(board, make_layup<double>(board), options);
}

EdgeResult run_edge(const Board& board, const std::vector<EdgeCondition>& conditions,
                    const EdgeOptions& options) {
    check_conditions(board, conditions, options.flat);
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
    result.bent = all_bent(conditions);
    const int degree = result.prepared->degree;
    const int threads = options.thread_count();
    result.warnings = result.mesh.notes;
    std::vector<EdgeConditionResult> coarse;
    BentRests rests;
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
            solve_degree({board, conditions, options, threads, p == degree, rests},
                         std::move(model), sections, result);
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
