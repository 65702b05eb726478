#include "solver/strength_look.hpp"

#include <algorithm>
#include <vector>

#include "solver/cases/degree_run.hpp"
#include "solver/strength_mesh.hpp"

namespace vrid {

bool has_strengths(const Board& board) {
    const Layup<double> layup = make_layup<double>(board);
    const JudgedLayup judged = judged_layup(layup);
    const auto known = [](const JudgedPly& ply) {
        return std::ranges::any_of(
            ply.parts, [](const JudgedPart& part) { return part.strength.has_value(); });
    };
    return known(judged.edge) || known(judged.flange) ||
           std::ranges::any_of(judged.core_variants, known) ||
           std::ranges::any_of(
               judged.items, [&](const auto& plies) { return std::ranges::any_of(plies, known); });
}

std::map<std::string, double> strength_look(const Board& board, const StrengthOptions& options) {
    StudyOptions wanted = strength_study_options(board, options);
    if (!wanted.prepared) {
        wanted.prepared = prepare_strength(board, options);
    }
    const StudyResult study = run_study(board, wanted);
    const SolvedModel& solved = *study.solved[1];
    const Layup<double> layup = make_layup<double>(board);
    const JudgedLayup judged = judged_layup(layup);
    WeakestSearch search(layup, judged, study.mesh, options.criterion);
    std::map<std::string, double> loads;
    for (std::size_t i = 0; i < study.cases.size(); ++i) {
        const CaseResult& one = study.cases[i];
        const BenchCase& bench = bench_of(one.name);
        if (!one.skipped.empty() || !bench.loading) {
            continue;
        }
        const StrainField strain = strain_field(solved.model, solved.motion[i].col(0));
        const HeldParts held = held_parts(solved.model, bench.loading(board, solved.model));
        const Quantity& stiffness = one.numbers.front().quantity;
        const double unit = stiffness.unit == Unit::twist_stiffness ? stiffness.value : 1;
        const std::vector<Weakest> weakest = search.over_board({{strain, held}});
        for (const auto& [way, weak] : weakest.front().anywhere) {
            const auto [known, fresh] = loads.try_emplace(one.name, weak.factor * unit);
            known->second = std::min(known->second, weak.factor * unit);
        }
    }
    return loads;
}

} // namespace vrid
