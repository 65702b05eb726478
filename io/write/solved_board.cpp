#include "io/write/solved_board.hpp"

#include "io/write/units.hpp"

namespace vrid {

std::string number_name(const CaseResult& result, const NamedQuantity& number) {
    return number.name == "stiffness" ? result.name : result.name + " " + number.name;
}

std::vector<NamedQuantity> numbers_of(const SolvedBoard& solved) {
    std::vector<NamedQuantity> all{{"mass", mass_quantity(solved.mass)}};
    for (const CaseResult& result : solved.study.cases) {
        for (const NamedQuantity& number : result.numbers) {
            all.push_back({number_name(result, number), number.quantity});
        }
    }
    if (solved.edge) {
        const std::vector<NamedQuantity> edge = watched_edge_numbers(solved.edge->result);
        all.insert(all.end(), edge.begin(), edge.end());
    }
    return all;
}

std::vector<LimitVerdict> verdicts_of(const SolvedBoard& solved) {
    std::vector<NamedQuantity> numbers = plain_numbers(solved.board, solved.outline, solved.mass);
    const std::vector<NamedQuantity> computed = numbers_of(solved);
    numbers.insert(numbers.end(), computed.begin(), computed.end());
    return judge(solved.board.limits, numbers);
}

WrittenLoad written_load(const CaseResult& result) {
    for (const NamedQuantity& number : result.numbers) {
        if (number.quantity.unit == Unit::bending_stiffness) {
            return {1, "1 N"};
        }
        if (number.quantity.unit == Unit::twist_stiffness) {
            const BenchUnit turn = bench_unit(Unit::angle);
            return {1 / turn.per_si, "1 " + turn.name};
        }
    }
    return {1, "scaled"};
}

} // namespace vrid
