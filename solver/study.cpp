#include "solver/study.hpp"

#include <algorithm>
#include <cmath>
#include <new>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/bend.hpp"
#include "solver/case_answers.hpp"
#include "solver/case_bars.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/cooling/cooling.hpp"
#include "solver/mesh_request.hpp"
#include "solver/selection.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/model.hpp"
#include "solver/system/out_of_memory.hpp"
#include "solver/system/stopwatch.hpp"

namespace vrid {

namespace {

// By measurement (benchmarks/degree.cpp): the least time to bars of 0.1 %.
constexpr int study_degree = 3;
constexpr double study_size = 0.08;
constexpr int highest_degree = 6;
constexpr int most_unknowns = 600000; // refinement stops here: about a minute on one core

struct Run {
    PlateModel model;
    std::vector<Answer> answers; // one per run case
    Eigen::MatrixXd cooling_adjoint{};
};

struct Setting {
    int degree;
    double size;
};

Setting first_setting(const StudyOptions& options) {
    if (options.prepared) {
        return {options.prepared->degree, options.prepared->max_size};
    }
    return {options.degree > 0 ? options.degree : study_degree,
            options.max_size > 0 ? options.max_size : study_size};
}

// The degree whose answers tell the bar.
int lower(int degree) {
    return std::max(1, degree - 1);
}

SharedPrepared prepare(const Board& board, const Layup<double>& layup,
                       const std::vector<const BenchCase*>& cases, Setting setting,
                       const RestShape* rest) {
    return prepared_on(board, mesh_planform(board, mesh_request(layup, cases, setting.size, rest)),
                       setting.degree, setting.size, case_stations(board, cases));
}

// One pass: a mesh, and every case at two degrees on it.
class Pass {
  public:
    Pass(const Board& board, const StudyOptions& options, const Selection& selection,
         StudyResult& result)
        : board_(board), options_(options), selection_(selection), result_(result) {}

    void run(Setting setting, SharedPrepared prepared) {
        const Layup<double> layup = make_layup<double>(board_);
        SectionCache sections(layup);
        options_.tell("mesh", 0);
        if (!prepared) {
            const Stopwatch watch(result_.seconds["mesh"]);
            prepared = prepare(board_, layup, selection_.run, setting, result_.rest.get());
        }
        result_.prepared = prepared;
        result_.mesh = prepared->mesh;
        try {
            solve(setting, *prepared, sections);
        } catch (const std::bad_alloc&) {
            throw out_of_memory(prepared->unknowns);
        }
    }

  private:
    void solve(Setting setting, const Prepared& prepared, SectionCache& sections) {
        Run coarse = solve_at({lower(setting.degree), 0.1, 0.25}, sections, prepared.trees[0]);
        Run fine = solve_at({setting.degree, 0.35, 0.65}, sections, prepared.trees[1], &coarse);
        report(coarse, fine);
        if (!options_.bend.empty()) {
            const Stopwatch watch(result_.seconds["bend"]);
            const Bending bent = bend_board(board_, {coarse.model, prepared.trees[0]},
                                            {fine.model, prepared.trees[1]}, selection_.run,
                                            options_, options_.bent_weights);
            result_.bent = bent.cases;
            result_.not_bent = bent.missed;
            if (!options_.bend_as_far) {
                throw_if_missed(bent.missed);
            }
            result_.bent_warnings = bent.warnings;
        }
        if (options_.keep_models) {
            result_.solved = {kept(std::move(coarse)), kept(std::move(fine))};
        }
    }

    struct Stage {
        int degree;
        double share; // done before it
        double own;
        [[nodiscard]] double at(double done) const { return share + own * done; }
    };

    // `coarse`: the same at a lower degree, null if there is none.
    Run solve_at(Stage stage, SectionCache& sections, const EliminationTree& tree,
                 const Run* coarse = nullptr) {
        options_.tell("sections", stage.share);
        Run run;
        {
            const Stopwatch watch(result_.seconds["sections"]);
            run.model = make_model(result_.mesh, stage.degree, sections);
            run.model.rest = result_.rest;
            add_mass_only(board_, run.model);
        }
        run.answers = answers(run, tree, sections, coarse, stage);
        return run;
    }

    // Both cooling cases at once; nothing if there are none.
    std::vector<Answer> cooled(Run& run, const EliminationTree& tree, SectionCache& sections,
                               const std::shared_ptr<const Factor>& factor, bool fine) {
        CoolingTask task{board_, run.model,
                         tree,   sections,
                         factor, {options_.thread_count(), options_.memory.get()},
                         {},     options_.concavity,
                         fine,   fine && options_.keep_models};
        for (const BenchCase* bench : selection_.run) {
            if (bench->cools_to != nullptr) {
                task.celsius.push_back((*board_.cure).*bench->cools_to);
            }
        }
        if (task.celsius.empty()) {
            return {};
        }
        Cooling cooling = cool(task, result_.seconds);
        run.cooling_adjoint = std::move(cooling.adjoint);
        return cooled_answers(std::move(cooling));
    }

    // Whether a case stands on supports that take no force.
    [[nodiscard]] bool any_free() const {
        return std::ranges::any_of(selection_.run, [&](const auto* bench) {
            return bench->modes > 0 || (bench->cools_to != nullptr && !creeps(board_));
        });
    }

    std::vector<Answer> answers(Run& run, const EliminationTree& tree, SectionCache& sections,
                                const Run* coarse, Stage stage) {
        const PlateModel& model = run.model;
        std::vector<Loading> loadings;
        for (const BenchCase* bench : selection_.run) {
            if (bench->loading) {
                loadings.push_back(bench->loading(board_, model));
            }
        }
        const std::vector<char> free(static_cast<std::size_t>(model.unknowns()), 0);
        std::vector<std::vector<char>> supports = each_of(loadings, &Loading::fixed);
        if (any_free()) {
            supports.push_back(determinate_supports(model, free, tree));
        }
        const auto part = [&](const char* phase, double from, double own) {
            return [=, this](double done) { options_.tell(phase, stage.at(from + own * done)); };
        };
        const SolveMeans means{options_.thread_count(), options_.memory.get(),
                               part("factor", 0, 0.4)};
        auto factors = factorise_supports(model, supports, tree, means, result_.seconds);
        const std::shared_ptr<const Factor> last = any_free() ? factors.back() : nullptr;
        factors.resize(loadings.size());
        options_.tell("solve", stage.at(0.4));
        const std::vector<CaseSolution> solutions =
            solve_loadings(model, loadings, factors, options_.thread_count(), result_.seconds);
        factors.clear(); // memory
        const std::vector<Answer> shapes = cooled(run, tree, sections, last, coarse != nullptr);
        std::vector<Answer> all;
        std::size_t next = 0;
        std::size_t next_shape = 0;
        for (const BenchCase* bench : selection_.run) {
            if (bench->loading) {
                const CaseSolution& one = solutions[next++];
                Answer& answer = all.emplace_back();
                answer.numbers = {{"stiffness", {one.stiffness, 0, bench->unit}}};
                answer.motion = one.u;
                answer.residual = one.residual;
            } else if (bench->cools_to != nullptr) {
                all.push_back(shapes[next_shape++]);
            } else {
                const Stopwatch watch(result_.seconds["solve"]);
                ModeOptions options;
                options.means = means;
                options.means.progress = part("solve", 0.5, 0.5);
                options.factor = last.get();
                if (coarse != nullptr) {
                    options.start =
                        at_higher_degree(coarse->model, model, coarse->answers[all.size()].near);
                }
                if (coarse == nullptr || !options_.keep_models) {
                    options.tolerance = 1e-5; // frequencies to 1e-10; derivatives want shapes
                }
                all.push_back(modes_answer(model, bench->modes, options));
            }
        }
        return all;
    }

    std::shared_ptr<const SolvedModel> kept(Run run) const {
        auto solved = std::make_shared<SolvedModel>();
        solved->model = std::move(run.model);
        solved->motion.resize(selection_.results.size());
        solved->cooling_adjoint = std::move(run.cooling_adjoint);
        for (std::size_t i = 0; i < run.answers.size(); ++i) {
            Answer& answer = run.answers[i];
            solved->motion[selection_.place[i]] =
                answer.shapes.size() > 0 ? answer.shapes : Eigen::MatrixXd(answer.motion);
        }
        return solved;
    }

    void report(const Run& coarse, const Run& fine) {
        result_.numbering = fine.model.numbering;
        result_.unknowns = fine.model.unknowns();
        result_.residual = 0;
        const auto numbers = numbers_with_bars({coarse.model, coarse.answers},
                                               {fine.model, fine.answers}, options_.thread_count());
        for (std::size_t i = 0; i < selection_.run.size(); ++i) {
            CaseResult& result = result_.cases[selection_.place[i]];
            const Answer& answer = fine.answers[i];
            result.numbers = numbers[i];
            result.motion = answer.motion;
            result.residual = answer.residual;
            result.cooled = answer.cooled;
            result.deflection.clear();
            result.twist.clear();
            for (const StationLine& line : result_.mesh.lines) {
                result.deflection.push_back(line_mean(fine.model, line, answer.motion, comp_w));
                result.twist.push_back(line_slope(fine.model, line, answer.motion));
            }
            result_.residual = std::max(result_.residual, answer.residual);
        }
    }

    const Board& board_;
    const StudyOptions& options_;
    const Selection& selection_;
    StudyResult& result_;
};

double worst_relative_error(const StudyResult& result) {
    double worst = 0;
    for (const CaseResult& one : result.cases) {
        for (const NamedQuantity& number : one.numbers) {
            if (!is_place(number.quantity)) {
                worst = std::max(worst, number.quantity.error / std::abs(number.quantity.value));
            }
        }
    }
    return worst;
}

} // namespace

std::vector<std::string> possible_cases(const Board& board) {
    std::vector<std::string> names;
    for (const BenchCase* bench : select_cases(board, {}).run) {
        names.push_back(bench->info.name);
    }
    return names;
}

SharedPrepared prepare_study(const Board& board, const StudyOptions& options) {
    const Selection selection = select_cases(board, options.cases);
    return prepare(board, make_layup<double>(board), selection.run, first_setting(options),
                   shape_of(board, options).get());
}

MeshOptions study_mesh_options(const Board& board, const StudyOptions& options) {
    const Selection selection = select_cases(board, options.cases);
    return mesh_request(make_layup<double>(board), selection.run, first_setting(options).size,
                        shape_of(board, options).get());
}

StudyResult run_study(const Board& board, const StudyOptions& options) {
    StudyResult result;
    for (const char* phase : {"mesh", "sections", "assemble", "factor", "solve"}) {
        result.seconds[phase] = 0;
    }
    const Selection selection = select_cases(board, options.cases);
    result.cases = selection.results;
    result.rest = shape_of(board, options);
    if (options.prepared) {
        check_prepared(*options.prepared, board, options, case_stations(board, selection.run));
    }
    Setting setting = first_setting(options);
    Pass pass(board, options, selection, result);
    pass.run(setting, options.prepared);
    while (options.rel_error && worst_relative_error(result) > *options.rel_error) {
        if (setting.degree < highest_degree) {
            ++setting.degree;
        } else {
            setting.size /= 2;
        }
        if (result.unknowns > most_unknowns / 4) {
            result.rel_error_met = false;
            break;
        }
        pass.run(setting, nullptr);
    }
    const Layup<double> layup = make_layup<double>(board);
    for (const StationLine& line : result.mesh.lines) {
        result.stations.push_back(cross_section(layup, line.x));
    }
    result.warnings.insert(result.warnings.end(), result.mesh.notes.begin(),
                           result.mesh.notes.end());
    result.warnings.insert(result.warnings.end(), result.bent_warnings.begin(),
                           result.bent_warnings.end());
    return result;
}

} // namespace vrid
