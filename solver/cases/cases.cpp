#include "solver/cases/cases.hpp"

#include <algorithm>

#include "mesh/board/lists.hpp"
#include "solver/cases/foot_strip.hpp"

namespace vrid {

const std::vector<BenchCase>& case_table() {
    static const std::vector<BenchCase> table{
        centre_flex(),  nose_flex(),  tail_flex(),  nose_twist(), tail_twist(),
        stance_twist(), full_twist(), free_modes(), release(),    cold()};
    return table;
}

std::string missing_for(const BenchCase& bench, const Board& board) {
    if (bench.cools_to != nullptr && !board.cure) {
        return "the board file has no [cure]";
    }
    if (!bench.needs_feet) {
        return "";
    }
    if (!board.stance) {
        return "the board file has no [stance]";
    }
    const std::vector<double> lines = foot_lines(board);
    if (!std::ranges::is_sorted(lines) || lines.front() <= tail_contact(board) ||
        lines.back() >= nose_contact(board)) {
        return "the foot strips overlap or reach a contact line";
    }
    return "";
}

std::vector<CaseInfo> bench_cases() {
    return each_of(case_table(), &BenchCase::info);
}

const BenchCase& bench_of(const std::string& name) {
    const auto found = std::ranges::find_if(
        case_table(), [&](const BenchCase& bench) { return bench.info.name == name; });
    assert(found != case_table().end());
    return *found;
}

double tail_contact(const Board& board) {
    return -board.planform.running_length / 2;
}
double nose_contact(const Board& board) {
    return board.planform.running_length / 2;
}

} // namespace vrid
