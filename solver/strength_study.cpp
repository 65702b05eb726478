#include "solver/strength_study.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/strength/leading_ways.hpp"
#include "solver/strength_bar.hpp"
#include "solver/strength_mesh.hpp"
#include "solver/strength_residual.hpp"

namespace vrid {

namespace {

constexpr double kink_within = 0.03;

class Strength {
  public:
    Strength(const Board& board, const StrengthOptions& options)
        : board_(board), options_(options), layup_(make_layup<double>(board)),
          judged_(judged_layup(layup_)) {}

    StrengthResult run() {
        result_.criterion = options_.criterion;
        result_.residual = options_.residual || !options_.cooled.empty();
        result_.cooled = options_.cooled;
        result_.not_judged = judged_.not_judged;
        result_.taken = judged_.taken;
        StudyOptions study = strength_study_options(board_, options_);
        if (!study.prepared) {
            study.prepared = prepare_strength(board_, options_, &result_.warnings);
        }
        result_.study = run_study(board_, study);
        result_.warnings.insert(result_.warnings.end(), result_.study.warnings.begin(),
                                result_.study.warnings.end());
        WeakestSearch search(layup_, judged_, result_.study.mesh, options_.criterion);
        find_residual(search);
        options_.tell("strength", 0.9);
        const std::vector<FoundFailures> coarse = search_at(search, 0);
        const std::vector<FoundFailures> fine = search_at(search, 1);
        std::size_t next = 0;
        search.residual = residual_[1];
        for (const CaseResult& one : result_.study.cases) {
            if (!bench_of(one.name).loading) {
                continue; // not loaded
            }
            CaseStrength strength;
            strength.name = one.name;
            strength.skipped = one.skipped;
            if (one.skipped.empty()) {
                fill({search, next, coarse[next], fine[next]}, one, strength);
                add_second_side(search, next, strength);
                add_index(search, next, one, strength);
                ++next;
            }
            result_.cases.push_back(std::move(strength));
        }
        for (const BentCase& one : result_.study.bent) {
            if (one.motion.size() > 0 && fine[next].first != nullptr) {
                result_.bent.push_back(bent_index({search, next, coarse[next], fine[next]}, one));
            }
            next += one.motion.size() > 0 ? 1 : 0;
        }
        for (const BentMiss& miss : result_.study.not_bent) {
            if (bench_of(miss.name).unit == Unit::bending_stiffness) {
                result_.not_bent.push_back(miss);
            }
        }
        return std::move(result_);
    }

  private:
    struct Solved {
        StrainField strain;
        HeldParts held;
        std::vector<int> signs{1, -1};
        [[nodiscard]] WeakestSearch::Motion motion() const { return {strain, held, signs}; }
    };

    void find_residual(const WeakestSearch& search) {
        for (const std::size_t degree : {0, 1}) {
            residual_[degree] = options_.residual;
            if (!options_.cooled.empty()) {
                const auto cooled =
                    std::make_shared<CooledStress>(board_, result_.study, options_.cooled, degree);
                residual_[degree] = [cooled, &search](const Disc& disc,
                                                      const PointLaminate& point) {
                    return cooled->at(search.key(disc.stack), disc, point);
                };
            }
        }
    }

    std::vector<FoundFailures> search_at(WeakestSearch& search, std::size_t degree) {
        search.residual = residual_[degree];
        const SolvedModel& solved = *result_.study.solved[degree];
        std::vector<Solved>& all = solved_[degree];
        for (std::size_t i = 0; i < result_.study.cases.size(); ++i) {
            const BenchCase& bench = bench_of(result_.study.cases[i].name);
            if (result_.study.cases[i].skipped.empty() && bench.loading) {
                all.push_back({strain_field(solved.model, solved.motion[i].col(0)),
                               held_parts(solved.model, bench.loading(board_, solved.model))});
            }
        }
        for (const BentCase& one : result_.study.bent) {
            if (one.motion.size() > 0) {
                all.push_back(
                    {bent_strain_field(solved.model, degree == 1 ? one.motion : one.coarse_motion),
                     held_parts(solved.model, bench_of(one.name).loading(board_, solved.model)),
                     {1}});
            }
        }
        const std::vector<WeakestSearch::Motion> motions =
            each_of(all, [](const Solved& one) { return one.motion(); });
        std::vector<Weakest> weakest = search.over_board(motions);
        std::vector<FoundFailures> found;
        for (std::size_t i = 0; i < motions.size(); ++i) {
            search.refine(motions[i], leading_ways(weakest[i]), weakest[i], degree == 1);
            found.push_back({std::move(weakest[i])});
        }
        for (FoundFailures& one : found) {
            pick(one);
        }
        return found;
    }

    // A motion as the search sees it: by number, what both degrees found.
    struct Searched {
        WeakestSearch& search;
        std::size_t motion;
        const FoundFailures &coarse, &fine;
    };

    std::array<SeenMotion, 2> seen(std::size_t motion) {
        return {SeenMotion{solved_[0][motion].motion(), residual_[0]},
                SeenMotion{solved_[1][motion].motion(), residual_[1]}};
    }

    double share(const Searched& one, const Weakness& fine, const Weakness* coarse,
                 bool breaking = false) {
        return strength_bar(result_.study.solved[1]->model.reference.p,
                            degree_change(one.search, seen(one.motion), fine, coarse, breaking));
    }

    double share_of_least(const Searched& one, const Weakness& fine, const Weakness* coarse,
                          std::map<Way, Weakness> Weakest::*where, bool breaking = false) {
        return least_bar(result_.study.solved[1]->model.reference.p, fine.factor,
                         share(one, fine, coarse, breaking),
                         rivals(one.search, seen(one.motion),
                                {&one.coarse.weakest, &one.fine.weakest}, fine, where, breaking));
    }

    FailurePlace placed(const Weakness& fine, double share, const CaseResult& one) const {
        const Quantity& stiffness = one.numbers.front().quantity;
        const bool twist = stiffness.unit == Unit::twist_stiffness;
        FailurePlace place;
        place.place = fine;
        place.layer = judged_.layers[static_cast<std::size_t>(fine.layer)];
        place.load.unit = twist ? Unit::moment : Unit::force;
        place.travel.unit = twist ? Unit::angle : Unit::length;
        // the motion is at a unit force, or at a unit turn
        place.load.value = twist ? fine.factor * stiffness.value : fine.factor;
        place.travel.value = twist ? fine.factor : fine.factor / stiffness.value;
        const double other = stiffness.error / std::abs(stiffness.value);
        place.load.error = place.load.value * (share + (twist ? other : 0));
        place.travel.error = place.travel.value * (share + (twist ? 0 : other));
        if (fine.factor == 0) {
            place.load.error = place.travel.error = 0;
        }
        place.resolved = place.load.error <= resolved_bar * place.load.value;
        place.at_clamp = fine.aside <= fine.diameter / 2;
        place.at_outline = distance_(fine.at) < fine.diameter;
        return place;
    }

    FailurePlace place(const Searched& one, const CaseResult& answer, const Weakness& fine,
                       double share) {
        FailurePlace found = placed(fine, share, answer);
        found.key = one.search.key(fine.stack);
        const auto disc_of = [&](double scale) {
            return one.search.maker().at(fine.at, fine.stack, scale).value_or(Disc{});
        };
        found.disc = disc_of(1);
        found.beside = {disc_of(1 - beside_disc), disc_of(1 + beside_disc)};
        return found;
    }

    void fill(const Searched& one, const CaseResult& answer, CaseStrength& strength) {
        const FoundFailures& coarse = one.coarse;
        const FoundFailures& fine = one.fine;
        if (fine.first == nullptr) {
            return;
        }
        strength.first = place(one, answer, *fine.first,
                               share_of_least(one, *fine.first, coarse.first, &Weakest::anywhere));
        strength.before_load = fine.first->factor == 0;
        if (fine.away != nullptr) {
            strength.away = place(one, answer, *fine.away,
                                  share_of_least(one, *fine.away, coarse.away, &Weakest::away));
        }
        if (fine.breaking != nullptr) {
            strength.breaks = place(
                one, answer, *fine.breaking,
                share_of_least(one, *fine.breaking, coarse.breaking, &Weakest::anywhere, true));
        }
        const std::vector<const Weakness*> others = next_weaknesses(fine);
        for (const Weakness* other : others) {
            const auto before = coarse.weakest.anywhere.find({other->layer, other->mode});
            strength.next.push_back(
                place(one, answer, *other,
                      share(one, *other,
                            before == coarse.weakest.anywhere.end() ? nullptr : &before->second)));
        }
        strength.kink =
            !others.empty() && others.front()->factor < (1 + kink_within) * fine.first->factor;
        strength.slope = fine.first->factor * steepest(answer.motion);
    }

    // Nothing scales here: the stresses are those of the bent state.
    BentIndex bent_index(const Searched& searched, const BentCase& one) {
        const Weakness& place = *searched.fine.first;
        BentIndex bent;
        bent.bench_case = one.name;
        bent.travel = one.travel;
        bent.place = place;
        bent.layer = judged_.layers[static_cast<std::size_t>(place.layer)];
        const double wide =
            share_of_least(searched, place, searched.coarse.first, &Weakest::anywhere);
        const double power = options_.criterion == Criterion::tsai_hill ? 2 : 1;
        bent.index.value = searched.search.index_at(solved_[1][searched.motion].motion(), place);
        bent.index.error = power * wide * bent.index.value;
        bent.resolved = wide <= resolved_bar;
        bent.at_clamp = place.aside <= place.diameter / 2;
        bent.at_outline = distance_(place.at) < place.diameter;
        return bent;
    }

    // Whether the first place has a twin on the other side, and the load in either direction.
    void add_second_side(WeakestSearch& search, std::size_t motion, CaseStrength& strength) {
        if (!strength.first) {
            return;
        }
        const Solved& solved = solved_[1][motion];
        FailurePlace& first = *strength.first;
        const Way way{first.place.layer, first.place.mode};
        if (std::abs(first.place.at.y()) > first.place.diameter) {
            const auto twin = search.at({solved.strain, solved.held},
                                        {first.place.at.x(), -first.place.at.y()}, -1, way);
            first.both_sides = twin && std::abs(twin->factor / first.place.factor - 1) < 2e-3;
        }
    }

    // The largest index at a load: by the criterion, any mode, the worse direction.
    void add_index(WeakestSearch& search, std::size_t motion, const CaseResult& one,
                   CaseStrength& strength) {
        if (!options_.at || !strength.first) {
            return;
        }
        const double factor = one.numbers.front().quantity.unit == Unit::twist_stiffness
                                  ? *options_.at / one.numbers.front().quantity.value
                                  : *options_.at;
        const Solved& solved = solved_[1][motion];
        const auto index = search.largest_index({solved.strain, solved.held}, factor);
        strength.at = IndexAtLoad{*options_.at, index.first, index.second};
    }

    const Board& board_;
    const StrengthOptions& options_;
    Layup<double> layup_;
    JudgedLayup judged_;
    OutlineDistance distance_{board_.planform};
    std::array<std::vector<Solved>, 2> solved_;
    std::array<ResidualAt, 2> residual_;
    StrengthResult result_;
};

} // namespace

StrengthResult run_strength(const Board& board, const StrengthOptions& options) {
    return Strength(board, options).run();
}

std::vector<NamedQuantity> strength_numbers(const StrengthResult& result) {
    std::vector<NamedQuantity> numbers;
    for (const CaseStrength& one : result.cases) {
        if (one.first) {
            numbers.push_back({"strength." + one.name, one.first->load});
            numbers.push_back({"strength." + one.name + ".travel", one.first->travel});
        }
        if (one.breaks) {
            numbers.push_back({"strength." + one.name + ".breaks", one.breaks->load});
        }
    }
    return numbers;
}

} // namespace vrid
