#include <algorithm>
#include <array>
#include <string_view>

#include "io/write/csv_cell.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

std::string name_in(const EdgeCondition& condition, const std::string& number) {
    return edge_condition_name(condition) + " " + in_words(number);
}

} // namespace

std::string edge_condition_name(const EdgeCondition& condition) {
    // csv_cell: "30", as a person would write it
    std::string name = "edge " + csv_cell(from_si("x_deg", condition.tilt)) + " deg " +
                       csv_cell(condition.force) + " N " + hardness_text(condition);
    if (condition.side == Side::right) {
        name += " right";
    }
    if (condition.share != 0.5) {
        name += " share " + csv_cell(condition.share);
    }
    if (condition.bent) {
        name += " bent";
    }
    return name;
}

std::string side_name(const EdgeCondition& condition) {
    return condition.side == Side::left ? "left" : "right";
}

double bench_hardness(const EdgeCondition& condition) {
    return from_si(condition.law == SnowLaw::volume ? "x_Npmm3" : "x_Npmm2", condition.hardness);
}

std::string hardness_text(const EdgeCondition& condition) {
    return csv_cell(bench_hardness(condition)) +
           (condition.law == SnowLaw::volume ? " N/mm3" : " N/mm2");
}

bool is_watched_edge_number(const std::string& name) {
    constexpr std::array<std::string_view, 4> others{"peak_x", "contact_tail", "contact_nose",
                                                     "balance"};
    return !contains(others, name);
}

std::string in_words(std::string name) {
    std::ranges::replace(name, '_', ' ');
    return name;
}

std::vector<NamedQuantity> watched_edge_numbers(const EdgeResult& result) {
    std::vector<NamedQuantity> all;
    for (const EdgeConditionResult& one : result.conditions) {
        for (const NamedQuantity& number : one.numbers) {
            if (is_watched_edge_number(number.name)) {
                all.push_back({name_in(one.condition, number.name), number.quantity});
            }
        }
    }
    return all;
}

bool is_edge_limit(const std::string& name) {
    return name.starts_with("edge.") || name.starts_with("edge ");
}

Verdicts judge_with_edge(const std::map<std::string, Limit>& limits,
                         std::vector<NamedQuantity> numbers, const EdgeResult& result) {
    std::map<std::string, Limit> held = limits;
    for (const EdgeConditionResult& one : result.conditions) {
        for (const NamedQuantity& number : one.numbers) {
            const std::string name = name_in(one.condition, number.name);
            if (const auto general = limits.find("edge." + number.name); general != limits.end()) {
                held.erase(general->first);
                held.try_emplace(name, general->second);
            }
            numbers.push_back({name, number.quantity});
        }
    }
    return judge(held, numbers);
}

Verdicts edge_verdicts(const EdgeHold& hold) {
    std::map<std::string, Limit> limits = hold.board.limits;
    std::erase_if(limits, [](const auto& one) { return !is_edge_limit(one.first); });
    return judge_with_edge(limits, {}, hold.result);
}

std::string condition_of(const std::vector<NumberId>& numbers, const EdgeCondition& condition) {
    return contains(numbers, NumberId::Kind::edge, &NumberId::kind) ? edge_condition_name(condition)
                                                                    : "";
}

std::string condition_line(const std::string& condition) {
    const std::size_t name = std::string_view("edge ").size();
    return condition.empty() ? "" : "  numbers on the edge: " + condition.substr(name) + "\n";
}

} // namespace vrid
