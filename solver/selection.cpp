#include "solver/selection.hpp"

#include <algorithm>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

Selection select_cases(const Board& board, const std::vector<std::string>& names) {
    const std::vector<BenchCase>& table = case_table();
    const auto case_name = [](const BenchCase& bench) { return bench.info.name; };
    std::vector<Problem> problems;
    for (const std::string& name : names) {
        const auto known = std::ranges::find(table, name, case_name);
        if (known == table.end()) {
            std::string found = "'";
            found.append(name)
                .append("' is no case; there are ")
                .append(joined(table, ", ", case_name));
            problems.push_back({"--case", found});
        } else if (const std::string why = missing_for(*known, board); !why.empty()) {
            std::string found = "case ";
            found.append(name).append(" cannot be run: ").append(why);
            problems.push_back({board.file, found});
        }
    }
    throw_if_any(problems);
    Selection selection;
    for (const BenchCase& bench : table) {
        const bool named = contains(names, bench.info.name);
        const bool unasked = bench.cools_to != nullptr && !board.cure;
        if (names.empty() ? unasked : !named) {
            continue;
        }
        CaseResult result;
        result.name = bench.info.name;
        result.skipped = missing_for(bench, board);
        if (result.skipped.empty()) {
            selection.run.push_back(&bench);
            selection.place.push_back(selection.results.size());
        }
        selection.results.push_back(result);
    }
    return selection;
}

} // namespace vrid
