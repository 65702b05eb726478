#include "solver/edge_strength.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "mesh/board/error.hpp"
#include "solver/bent_limits.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/edge_conditions.hpp"
#include "solver/loaded_edge.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/error_bar.hpp"
#include "solver/strength/leading_ways.hpp"
#include "solver/strength_bar.hpp"
#include "solver/strength_mesh.hpp"
#include "solver/strength_residual.hpp"

namespace vrid {

namespace {

constexpr int edge_degree = 3;
// Half of what contact asks for: the corners of the feet need it (DEVELOPERS.md).
constexpr double edge_strength_size = 0.02; // [m]

class EdgeSearch {
  public:
    EdgeSearch(const Board& board, const EdgeStrengthOptions& options)
        : board_(board), options_(options), layup_(make_layup<double>(board)),
          judged_(judged_layup(layup_)), degree_(options.degree > 0 ? options.degree : edge_degree),
          mesh_(meshed()), search_(layup_, judged_, mesh_, options.criterion) {
        search_.as_it_is = true;
        result_.criterion = options.criterion;
        result_.cooled = options.cooled;
        result_.not_judged = judged_.not_judged;
        result_.taken = judged_.taken;
    }

    EdgeStrengthResult run(const std::vector<EdgeCondition>& conditions) {
        result_.bent = all_bent(conditions);
        make_ready();
        double done = 0.3;
        for (const EdgeCondition& condition : conditions) {
            options_.tell("edge strength", done);
            result_.conditions.push_back(strength_of(condition));
            done += 0.7 / static_cast<double>(conditions.size());
        }
        if (result_.bent) {
            const auto passed = bent_warnings("bent on its edge", least_c_, most_strain_);
            result_.warnings.insert(result_.warnings.end(), passed.begin(), passed.end());
        }
        return std::move(result_);
    }

  private:
    // A condition at both degrees; without the lower one where that is 0.
    struct State {
        std::array<LoadedEdge, 2> edge;
        std::array<FoundFailures, 2> found;
    };

    Mesh meshed() {
        options_.tell("mesh", 0);
        const double size = options_.max_size > 0 ? options_.max_size : edge_strength_size;
        const MeshOptions plain = edge_mesh_request(layup_, size, shape_of(board_, options_).get());
        try {
            return mesh_planform(board_, finer_at_clamps(board_, plain));
        } catch (const SolveError&) {
            result_.warnings.emplace_back(
                "the mesh could not be made finer at the corners of the feet");
            return mesh_planform(board_, plain);
        }
    }

    void make_ready() {
        EdgeOptions edge{options_};
        edge.motion = true;
        SectionCache sections(layup_);
        for (const std::size_t i : {0, 1}) {
            const int p = degree_ - 1 + static_cast<int>(i);
            if (p > 0) {
                options_.tell("solve", 0.1 + 0.1 * static_cast<double>(i));
                PlateModel model = make_model(mesh_, p, sections);
                model.rest = shape_of(board_, options_);
                auto tree = std::make_shared<const EliminationTree>(
                    footed_tree(model.numbering, board_.stance->rear(), board_.stance->front()));
                edges_[i] = std::make_unique<LoadedEdges>(board_, edge, std::move(model), tree);
            }
        }
        if (!options_.cooled.empty()) {
            cool();
        }
    }

    // The stress out of the press, on the same mesh.
    void cool() {
        check_cooled(board_, options_.cooled);
        StudyOptions study{options_};
        study.rel_error.reset();
        study.bend.clear();
        study.degree = degree_;
        study.cases = {options_.cooled};
        study.keep_models = true;
        study.prepared =
            prepared_on(board_, mesh_, degree_, options_.max_size, edge_stations(board_));
        const StudyResult cooled = run_study(board_, study);
        for (const std::size_t i : {0, 1}) {
            const auto stress = std::make_shared<CooledStress>(board_, cooled, options_.cooled, i);
            residual_[i] = [this, stress](const Disc& disc, const PointLaminate& point) {
                return stress->at(search_.key(disc.stack), disc, point);
            };
        }
        const StrainField still(mesh_.quads.size(),
                                StrainField::value_type::Zero(8, strain_points * strain_points));
        const HeldParts free{std::vector<char>(mesh_.quads.size(), 0), {}};
        search_.residual = residual_[1];
        const std::vector<Weakest> alone = search_.over_board({{still, free, {1}}});
        for (const auto& [way, one] : alone.front().anywhere) {
            result_.before_load = result_.before_load || one.factor <= 1;
        }
    }

    void find(State& state, std::size_t degree) {
        search_.residual = residual_[degree];
        const WeakestSearch::Motion motion = state.edge[degree].motion();
        FoundFailures& found = state.found[degree];
        found.weakest = std::move(search_.over_board({motion}).front());
        search_.refine(motion, leading_ways(found.weakest), found.weakest, degree == 1);
        pick(found);
    }

    // At the higher degree alone.
    void load(const EdgeCondition& condition, State& state) {
        options_.tell("edge strength", 0.5);
        state.edge[1] = edges_[1]->at(condition);
        if (state.edge[1].result.no_equilibrium.empty()) {
            find(state, 1);
            least_c_ = std::min(least_c_, state.edge[1].result.least_c);
            most_strain_ = std::max(most_strain_, state.edge[1].result.most_strain);
        }
    }

    void load_lower(const EdgeCondition& condition, State& state) {
        if (edges_[0]) {
            state.edge[0] = edges_[0]->at(condition);
            if (state.edge[0].result.no_equilibrium.empty()) {
                find(state, 0);
            }
        }
    }

    std::array<SeenMotion, 2> seen(const State& state) {
        return {SeenMotion{state.edge[0].motion(), residual_[0]},
                SeenMotion{state.edge[1].motion(), residual_[1]}};
    }

    // The share of its stress that a place's bar is by itself.
    double share_of(const State& state, const Weakness& fine,
                    std::map<Way, Weakness> Weakest::*where = &Weakest::anywhere,
                    bool breaking = false) {
        const auto& by_way = state.found[0].weakest.*where;
        const auto found = by_way.find({fine.layer, fine.mode});
        return found == by_way.end()
                   ? no_bar
                   : strength_bar(degree_, degree_change(search_, seen(state), fine, &found->second,
                                                         breaking));
    }

    // As the least of all.
    double share_of_least(const State& state, const Weakness& fine,
                          std::map<Way, Weakness> Weakest::*where = &Weakest::anywhere,
                          bool breaking = false) {
        const double share = share_of(state, fine, where, breaking);
        return share == no_bar
                   ? share // the lower degree may have no state
                   : least_bar(degree_, fine.factor, share,
                               rivals(search_, seen(state),
                                      {&state.found[0].weakest, &state.found[1].weakest}, fine,
                                      where, breaking));
    }

    IndexPlace placed(const State& state, const Weakness& fine, double share) {
        const double power = options_.criterion == Criterion::tsai_hill ? 2 : 1;
        IndexPlace place;
        place.index.value = index_of(fine.factor, options_.criterion);
        place.index.error = power * share * place.index.value;
        place.place = fine;
        place.layer = judged_.layers[static_cast<std::size_t>(fine.layer)];
        place.resolved = share <= resolved_bar;
        HeldParts feet;
        feet.boxes = state.edge[1].held.boxes;
        place.at_clamp = distance_to(feet, fine.at) <= fine.diameter / 2;
        place.at_outline = distance_(fine.at) < fine.diameter;
        return place;
    }

    IndexPlaces places(const State& state) {
        const FoundFailures& fine = state.found[1];
        IndexPlaces all;
        all.slope = steepest(state.edge[1].result.motion);
        if (fine.first == nullptr) {
            return all;
        }
        all.first = placed(state, *fine.first, share_of_least(state, *fine.first));
        if (fine.away != nullptr) {
            all.away = placed(state, *fine.away, share_of_least(state, *fine.away, &Weakest::away));
        }
        if (fine.breaking != nullptr) {
            all.breaks = placed(state, *fine.breaking,
                                share_of_least(state, *fine.breaking, &Weakest::anywhere, true));
        }
        for (const Weakness* other : next_weaknesses(fine)) {
            all.next.push_back(placed(state, *other, share_of(state, *other)));
        }
        return all;
    }

    // The load at which the first place, or the first that breaks, has index 1.
    EdgeFailure raised(EdgeCondition condition, const Weakness* FoundFailures::*which) {
        State state;
        double known = 0; // the last load that has a state
        const RaisedLoad end =
            raise_load(condition.force, largest_edge_load, [&](double force) -> LoadTry {
                condition.force = force;
                State tried;
                try {
                    load(condition, tried);
                } catch (const SolveError& error) {
                    return {0, error.what()};
                }
                if (!tried.edge[1].result.no_equilibrium.empty()) {
                    return {0, tried.edge[1].result.no_equilibrium};
                }
                state = std::move(tried);
                known = force;
                const Weakness* const weakest = state.found[1].*which;
                return {weakest == nullptr ? 0 : 1 / weakest->factor, ""};
            });
        EdgeFailure failure;
        failure.why_not = end.why_not;
        failure.load = {known, 0, Unit::force};
        condition.force = known;
        load_lower(condition, state);
        failure.places = places(state);
        if (const Weakness* const weakest = state.found[1].*which;
            weakest != nullptr && end.why_not.empty()) {
            const double share = share_of_least(state, *weakest, &Weakest::anywhere,
                                                which == &FoundFailures::breaking);
            failure.load.error = known * (share + std::abs(std::log(end.use))) / end.growth;
        }
        return failure;
    }

    EdgeStrength strength_of(const EdgeCondition& condition) {
        EdgeStrength strength;
        strength.condition = condition;
        State state;
        load(condition, state);
        strength.no_equilibrium = state.edge[1].result.no_equilibrium;
        if (!strength.no_equilibrium.empty()) {
            return strength;
        }
        load_lower(condition, state);
        strength.places = places(state);
        if (options_.to_failure && strength.places.first && !result_.before_load) {
            strength.failure = raised(condition, &FoundFailures::first);
            if (strength.places.breaks) {
                strength.broken = raised(condition, &FoundFailures::breaking);
            }
        }
        return strength;
    }

    const Board& board_;
    const EdgeStrengthOptions& options_;
    EdgeStrengthResult result_;
    Layup<double> layup_;
    JudgedLayup judged_;
    int degree_;
    Mesh mesh_;
    WeakestSearch search_;
    OutlineDistance distance_{board_.planform};
    std::array<std::unique_ptr<LoadedEdges>, 2> edges_;
    std::array<ResidualAt, 2> residual_;
    double least_c_ = 1, most_strain_ = 0;
};

} // namespace

EdgeStrengthResult run_edge_strength(const Board& board,
                                     const std::vector<EdgeCondition>& conditions,
                                     const EdgeStrengthOptions& options) {
    check_conditions(board, conditions, options.flat);
    return EdgeSearch(board, options).run(conditions);
}

} // namespace vrid
