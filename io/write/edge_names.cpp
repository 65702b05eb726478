#include <algorithm>
#include <array>
#include <string_view>

#include "io/write/csv_cell.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

std::string edge_condition_name(const EdgeCondition& condition) {
    const bool volume = condition.law == SnowLaw::volume;
    const auto given = [](const char* key, double value) {
        return csv_cell(from_si(key, value)); // "30": as a person would write it
    };
    std::string name =
        "edge " + given("x_deg", condition.tilt) + " deg " + given("x_N", condition.force) + " N " +
        given(volume ? "x_Npmm3" : "x_Npmm2", condition.hardness) + (volume ? " N/mm3" : " N/mm2");
    if (condition.side == Side::right) {
        name += " right";
    }
    if (condition.share != 0.5) {
        name += " share " + given("x", condition.share);
    }
    if (condition.bent) {
        name += " bent";
    }
    return name;
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
        const std::string condition = edge_condition_name(one.condition);
        for (const NamedQuantity& number : one.numbers) {
            if (is_watched_edge_number(number.name)) {
                all.push_back({condition + " " + in_words(number.name), number.quantity});
            }
        }
    }
    return all;
}

} // namespace vrid
