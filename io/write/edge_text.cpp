#include <cmath>

#include "io/write/edge_report.hpp"
#include "io/write/number.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

/// Hardness in N/mm3 or N/mm2 as the condition's law has it.
std::string hardness_text(const EdgeCondition& condition) {
    const bool volume = condition.law == SnowLaw::volume;
    return significant(from_si(volume ? "x_Npmm3" : "x_Npmm2", condition.hardness), 4) +
           (volume ? " N/mm3" : " N/mm2");
}

std::string heading(const EdgeCondition& condition) {
    return std::string(condition.side == Side::left ? "left" : "right") + " edge, " +
           significant(from_si("x_deg", condition.tilt), 4) + " deg, " +
           significant(condition.force, 5) + " N, " + hardness_text(condition) + ", share " +
           significant(condition.share, 3);
}

std::vector<std::string> cells(const Quantity& quantity) {
    const BenchQuantity bench = to_bench(quantity);
    // A balance of 1e-14 is all zeros in plain digits: its size is what counts.
    const RoundedNumber shown = rounded(bench.value, bench.error);
    return {shown.value, shown.error.empty() ? "" : "+- " + shown.error};
}

bool shown_in_table(const NamedQuantity& number) {
    return number.name != "balance";
}

std::string one_table(const EdgeConditionResult& one) {
    Table table{{{"", "", Align::left},
                 {"", "", Align::decimal},
                 {"", "", Align::left},
                 {"", "", Align::left}},
                {}};
    for (const NamedQuantity& number : one.numbers) {
        if (shown_in_table(number)) {
            std::vector<std::string> row{in_words(number.name)};
            const auto values = cells(number.quantity);
            row.insert(row.end(), values.begin(), values.end());
            row.push_back(to_bench(number.quantity).unit);
            table.rows.push_back(row);
        }
    }
    return text(table);
}

std::string difference_text(const Quantity& first, const Quantity& second) {
    const Quantity difference{second.value - first.value, first.error + second.error, first.unit};
    if (!(std::abs(difference.value) > difference.error)) {
        return "not resolved";
    }
    const BenchQuantity bench = to_bench(difference);
    return (bench.value > 0 ? "+" : "") + rounded(bench.value, bench.error).value;
}

std::string two_tables(const EdgeConditionResult& one, const EdgeConditionResult& two) {
    Table table{{{"", "", Align::left},
                 {"A", "", Align::decimal},
                 {"", "", Align::left},
                 {"B", "", Align::decimal},
                 {"", "", Align::left},
                 {"B - A", "", Align::decimal},
                 {"unit", "", Align::left}},
                {}};
    for (std::size_t i = 0; i < one.numbers.size(); ++i) {
        const Quantity& a = one.numbers[i].quantity;
        const Quantity& b = two.numbers[i].quantity;
        if (shown_in_table(one.numbers[i])) {
            std::vector<std::string> row{in_words(one.numbers[i].name)};
            for (const Quantity& quantity : {a, b}) {
                const auto values = cells(quantity);
                row.insert(row.end(), values.begin(), values.end());
            }
            row.push_back(difference_text(a, b));
            row.push_back(to_bench(a).unit);
            table.rows.push_back(row);
        }
    }
    return text(table);
}

} // namespace

std::string edge_text(const EdgeHold& hold) {
    std::string all = hold.board.name + "\n";
    for (const EdgeConditionResult& one : hold.result.conditions) {
        all += "\n" + heading(one.condition) + "\n";
        all += one.no_equilibrium.empty() ? one_table(one)
                                          : "  no equilibrium: " + one.no_equilibrium + "\n";
    }
    return all;
}

std::string edge_text(const EdgeHold& hold, const EdgeHold& other) {
    std::string all = "  A  " + hold.board.name + "\n  B  " + other.board.name + "\n";
    for (std::size_t i = 0; i < hold.result.conditions.size(); ++i) {
        const EdgeConditionResult& one = hold.result.conditions[i];
        const EdgeConditionResult& two = other.result.conditions[i];
        all += "\n" + heading(one.condition) + "\n";
        if (one.no_equilibrium.empty() && two.no_equilibrium.empty()) {
            all += two_tables(one, two);
            continue;
        }
        for (const auto& [name, which] : {std::pair("A", &one), std::pair("B", &two)}) {
            if (!which->no_equilibrium.empty()) {
                all.append("  ").append(name).append(": no equilibrium: ");
                all.append(which->no_equilibrium).append("\n");
            }
        }
    }
    return all + "\n  not resolved: the difference is smaller than the sum of the two error bars\n";
}

} // namespace vrid
