#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "io/write/board_text.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/number.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

/// As a person would write it: "30", "22.5".
std::string plain(double value) {
    return csv_cell(value);
}

std::string heading(const EdgeCondition& condition) {
    return side_name(condition) + " edge, " + plain(from_si("x_deg", condition.tilt)) + " deg, " +
           plain(condition.force) + " N, " + hardness_text(condition) + ", " +
           plain(100 * condition.share) + " % on the front foot";
}

std::string in_motion(const EdgeResult& result) {
    return result.bent ? ", in large motion" : "";
}

/// A number's name for a reader: the parts of the edge angle lost stand under the whole.
std::string label(const std::string& name) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 11> labels{
        {{"peak", "peak force"},
         {"peak_x", "peak force at x"},
         {"contact_tail", "contact from x"},
         {"contact_nose", "contact to x"},
         {"loss_nose", "edge angle lost, nose"},
         {"loss_nose_twist", "  by twist"},
         {"loss_nose_across", "  by bending across"},
         {"loss_tail", "edge angle lost, tail"},
         {"loss_tail_twist", "  by twist"},
         {"loss_tail_across", "  by bending across"},
         {"loss_mean", "edge angle lost, mean"}}};
    const auto* const found =
        std::ranges::find_if(labels, [&](const auto& one) { return one.first == name; });
    return found == labels.end() ? in_words(name) : std::string(found->second);
}

std::vector<std::string> cells(const Quantity& quantity) {
    const BenchQuantity bench = to_bench(quantity);
    // A balance of 1e-14 is all zeros in plain digits: its size is what counts.
    const RoundedNumber shown = rounded(bench.value, bench.error);
    return {shown.value, bar_cell(bench)};
}

bool shown_in_table(const NamedQuantity& number) {
    return number.name != "balance";
}

std::string one_table(const EdgeConditionResult& one) {
    Table table{{left(""), decimal(""), left(""), left("")}};
    for (const NamedQuantity& number : one.numbers) {
        if (shown_in_table(number)) {
            std::vector<std::string> row{label(number.name)};
            const auto values = cells(number.quantity);
            row.insert(row.end(), values.begin(), values.end());
            row.push_back(to_bench(number.quantity).unit);
            table.rows.push_back(row);
        }
    }
    return text(table);
}

/// One row a condition: what a designer compares first, to the digits that the bars leave.
std::string map_table(const std::vector<EdgeConditionResult>& conditions) {
    constexpr std::array<std::pair<const char*, const char*>, 8> shown{
        {{"share_nose", "share nose"},
         {"share_tail", "share tail"},
         {"loss_nose", "lost nose"},
         {"loss_nose_twist", "by twist"},
         {"loss_tail", "lost tail"},
         {"loss_tail_twist", "by twist"},
         {"effective_length", "eff. length"},
         {"peak", "peak"}}};
    Table table{{left("side"), decimal("angle", "deg"), decimal("force", "N"), left("snow")}};
    for (const auto& [name, title] : shown) {
        table.columns.push_back(decimal(title));
    }
    const std::size_t first = table.columns.size() - shown.size();
    for (const EdgeConditionResult& one : conditions) {
        table.rows.push_back({side_name(one.condition), plain(from_si("x_deg", one.condition.tilt)),
                              plain(one.condition.force), hardness_text(one.condition)});
        for (std::size_t k = 0; k < shown.size(); ++k) {
            const auto number =
                std::ranges::find(one.numbers, shown[k].first, &NamedQuantity::name);
            const bool found = number != one.numbers.end();
            table.rows.back().push_back(found ? cells(number->quantity).front() : "-");
            if (found) {
                table.columns[first + k].unit = to_bench(number->quantity).unit;
            }
        }
    }
    return text(table) + "\n  lost: edge angle lost at the contact station; rounded as the error "
                         "bars allow, --details prints them\n";
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
    Table table{
        {left(""), decimal("A"), left(""), decimal("B"), left(""), decimal("B - A"), left("unit")}};
    for (std::size_t i = 0; i < one.numbers.size(); ++i) {
        const Quantity& a = one.numbers[i].quantity;
        const Quantity& b = two.numbers[i].quantity;
        if (shown_in_table(one.numbers[i])) {
            std::vector<std::string> row{label(one.numbers[i].name)};
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

std::string edge_text(const EdgeHold& hold, bool details) {
    std::string all = hold.board.name + in_motion(hold.result) + "\n";
    const auto& conditions = hold.result.conditions;
    if (conditions.size() > 1) {
        all += "\n" + map_table(conditions);
    }
    for (const EdgeConditionResult& one : conditions) {
        if (details || conditions.size() == 1) {
            all += "\n" + heading(one.condition) + "\n";
            all += one.no_equilibrium.empty() ? one_table(one)
                                              : "  no equilibrium: " + one.no_equilibrium + "\n";
        } else if (!one.no_equilibrium.empty()) {
            all += "  no equilibrium: " + heading(one.condition) + ": " + one.no_equilibrium + "\n";
        }
    }
    const Verdicts verdicts = edge_verdicts(hold);
    const std::vector<HeldLimit> held = held_limits(verdicts);
    const bool fewer = !details && held.size() < verdicts.size();
    const std::string limits = fewer ? held_limits_text(held) : limits_text(verdicts);
    return all + (limits.empty() ? "" : "\n" + limits) +
           (fewer ? "\n  of several conditions the worst is shown, --details prints them all\n"
                  : "");
}

std::string edge_text(const EdgeHold& hold, const EdgeHold& other) {
    std::string all = "  A  " + hold.board.name + in_motion(hold.result) + "\n  B  " +
                      other.board.name + in_motion(other.result) + "\n";
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
    all += "\n  not resolved: the difference is smaller than the sum of the two error bars\n";
    for (const auto& [name, which] : {std::pair("A", &hold), std::pair("B", &other)}) {
        const std::string limits = held_limits_text(held_limits(edge_verdicts(*which)));
        if (!limits.empty()) {
            all.append("\n  ").append(name).append("\n").append(limits);
        }
    }
    return all;
}

} // namespace vrid
