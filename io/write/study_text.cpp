#include "io/write/study_text.hpp"

#include <algorithm>

#include "io/write/bent_numbers.hpp"
#include "io/write/board_text.hpp"
#include "io/write/cooled_text.hpp"
#include "io/write/number.hpp"
#include "io/write/table.hpp"

namespace vrid {
namespace {

std::string numbers_text(const SolvedBoard& solved) {
    Table table{{left("case"), decimal("stiffness"), left("error bar"), left("unit")}};
    const auto is_stiffness = [](const NamedQuantity& number) {
        return number.name == "stiffness";
    };
    const auto& cases = solved.study.cases;
    const bool only_stiffness = std::ranges::all_of(cases, [&](const CaseResult& one) {
        return std::ranges::all_of(one.numbers, is_stiffness);
    });
    table.columns[1].title = only_stiffness ? "stiffness" : "value";
    for (const CaseResult& result : cases) {
        for (const NamedQuantity& number : result.numbers) {
            const BenchQuantity bench = to_bench(number.quantity);
            const RoundedNumber shown = rounded(bench.value, bench.error);
            table.rows.push_back(
                {number_name(result, number), shown.value, bar_cell(bench), bench.unit});
        }
        for (const NamedQuantity& number : mould_numbers(solved.board, result)) {
            const BenchQuantity bench = to_bench(number.quantity);
            const RoundedNumber shown = rounded(bench.value, bench.error);
            table.rows.push_back({number.name, shown.value, bar_cell(bench), bench.unit});
        }
    }
    return table.rows.empty() ? "" : text(table);
}

std::string skipped_text(const StudyResult& study) {
    Table table{{left("skipped"), left("why")}};
    for (const auto& [name, why] : skipped_of(study)) {
        table.rows.push_back({name, why});
    }
    return table.rows.empty() ? "" : "\n" + text(table);
}

/// Nothing where every bar is known.
std::string missing_bars_text(const StudyResult& study) {
    if (study.numbering.degree < 2) {
        return "\n  no error bars: they come from the degree below, and there is none below degree "
               "1;\n  use --degree 2 or more\n";
    }
    return "";
}

std::string figures_text(const StudyResult& study) {
    double seconds = 0;
    for (const auto& [phase, spent] : study.seconds) {
        seconds += spent;
    }
    return "\n  " + std::to_string(study.mesh.quads.size()) + " elements of degree " +
           std::to_string(study.numbering.degree) + ", " + std::to_string(study.unknowns) +
           " unknowns, " + significant(seconds, 2) + " s\n";
}

} // namespace

std::string study_text(const SolvedBoard& solved) {
    const std::string limits = limits_text(verdicts_of(solved));
    return solved.board.name + ", " + text(to_bench(mass_quantity(solved.mass))) + "\n\n" +
           numbers_text(solved) + bent_text(solved.study) + cooled_text(solved) +
           skipped_text(solved.study) + (limits.empty() ? "" : "\n" + limits) +
           missing_bars_text(solved.study) + figures_text(solved.study);
}

} // namespace vrid
