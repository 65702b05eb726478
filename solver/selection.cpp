#include "solver/selection.hpp"

#include <algorithm>

#include "mesh/board/error.hpp"

namespace vrid {

Selection select_cases(const Board& board, const std::vector<std::string>& names) {
    const std::vector<BenchCase>& table = case_table();
    std::vector<Problem> problems;
    for (const std::string& name : names) {
        const auto known =
            std::ranges::find_if(table, [&](const BenchCase& b) { return b.info.name == name; });
        if (known == table.end()) {
            std::string all;
            for (const BenchCase& bench : table) {
                all += (all.empty() ? "" : ", ") + bench.info.name;
            }
            std::string found = "'";
            found.append(name).append("' is no case; there are ").append(all);
            problems.push_back({"--case", found});
        } else if (const std::string why = missing_for(*known, board); !why.empty()) {
            std::string found = "case ";
            found.append(name).append(" cannot be run: ").append(why);
            problems.push_back({board.file, found});
        }
    }
    if (!problems.empty()) {
        throw InputError(problems);
    }
    Selection selection;
    for (const BenchCase& bench : table) {
        const bool named = std::ranges::find(names, bench.info.name) != names.end();
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
