#include <cmath>

#include "io/write/caution.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr int given_digits = 12; // of what the user typed, turned to SI and back
constexpr int balance_digits = 2;

FoundCondition found_condition(const EdgeConditionResult& one) {
    FoundCondition all{written_condition(one.condition), one.no_equilibrium};
    for (const NamedQuantity& number : one.numbers) {
        if (number.name == "balance") {
            all.balance = round_significant(number.quantity.value, balance_digits);
        } else {
            all.numbers[number.name] = to_bench(number.quantity);
        }
    }
    return all;
}

Named<EdgeDifference> difference_of(const EdgeConditionResult& one,
                                    const EdgeConditionResult& two) {
    Named<EdgeDifference> all;
    for (std::size_t i = 0; i < std::min(one.numbers.size(), two.numbers.size()); ++i) {
        const Quantity& a = one.numbers[i].quantity;
        const Quantity& b = two.numbers[i].quantity;
        if (one.numbers[i].name != "balance") {
            const Quantity difference{b.value - a.value, a.error + b.error, a.unit};
            all[one.numbers[i].name] = {Measured{to_bench(difference)},
                                        std::abs(difference.value) > difference.error};
        }
    }
    return all;
}

/// Of the board file first.
std::vector<std::string> warnings_of(const EdgeHold& hold) {
    auto all = json_of(hold.warnings).get<std::vector<std::string>>();
    all.insert(all.end(), hold.result.warnings.begin(), hold.result.warnings.end());
    return all;
}

} // namespace

WrittenCondition written_condition(const EdgeCondition& condition) {
    const auto given = [](double value) { return round_significant(value, given_digits); };
    return {edge_condition_name(condition),
            given(from_si("x_deg", condition.tilt)),
            given(condition.force),
            given(bench_hardness(condition)),
            condition.share,
            side_name(condition),
            condition.law == SnowLaw::volume ? "volume" : "linear"};
}

std::string edge_json(const EdgeHold& hold, const EdgeHold* other) {
    const EdgeResult& result = hold.result;
    FoundEdge all;
    all.program = program_name();
    all.board = board_file_entry(hold.board, hold.set);
    all.shape = result.rest ? "rest" : "flat";
    all.motion = result.bent ? "large" : "small";
    for (const EdgeConditionResult& one : result.conditions) {
        all.conditions.push_back(found_condition(one));
    }
    all.limits = edge_verdicts(hold);
    all.mesh = MeshEntry{result.mesh.quads.size(), result.numbering.degree, result.unknowns};
    all.warnings = warnings_of(hold);
    if (other != nullptr) {
        all.compared = BoardOnEdge{board_file_entry(other->board, other->set),
                                   {},
                                   warnings_of(*other),
                                   edge_verdicts(*other)};
        for (std::size_t i = 0; i < result.conditions.size(); ++i) {
            const EdgeConditionResult& one = other->result.conditions[i];
            all.compared->conditions.push_back(found_condition(one));
            all.compared->conditions.back().difference = difference_of(result.conditions[i], one);
        }
    }
    return json_text(written(all));
}

} // namespace vrid
