#include "solver/cases/cases.hpp"

namespace vrid {

const std::vector<BenchCase>& case_table() {
    static const std::vector<BenchCase> table{centre_flex(), nose_flex(),  tail_flex(),
                                              nose_twist(),  tail_twist(), stance_twist(),
                                              full_twist(),  free_modes()};
    return table;
}

std::vector<CaseInfo> bench_cases() {
    std::vector<CaseInfo> cases;
    for (const BenchCase& bench : case_table()) {
        cases.push_back(bench.info);
    }
    return cases;
}

double tail_contact(const Board& board) {
    return -board.planform.running_length / 2;
}
double nose_contact(const Board& board) {
    return board.planform.running_length / 2;
}

} // namespace vrid
