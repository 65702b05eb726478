#include "benchmarks/measure/row.hpp"

#include <algorithm>
#include <array>
#include <cstdio>

#include "benchmarks/measure/runs.hpp"

namespace vrid::measure {

namespace {

std::string verdict_text(const Row& row) {
    switch (row.verdict) {
    case Verdict::met:
        return "met";
    case Verdict::not_met:
        return "NOT met";
    case Verdict::not_here:
        break;
    }
    return "not measured here: " + row.why;
}

Row held(int target, const std::string& what, const std::vector<double>& runs,
         const std::string& wanted, const std::string& unit, bool met) {
    return {target,
            what,
            spread_text(runs) + (unit.empty() ? "" : " " + unit),
            wanted + (unit.empty() ? "" : " " + unit),
            met ? Verdict::met : Verdict::not_met,
            {}};
}

} // namespace

std::string number_text(double value) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.3g", value);
    return text.data();
}

std::string spread_text(const std::vector<double>& all) {
    if (all.size() < 2) {
        return number_text(median(all));
    }
    const auto [least, most] = std::minmax_element(all.begin(), all.end());
    return number_text(median(all)) + " (" + number_text(*least) + " to " + number_text(*most) +
           ")";
}

Row at_most(int target, const std::string& what, const std::vector<double>& runs, double limit,
            const std::string& unit) {
    return held(target, what, runs, "at most " + number_text(limit), unit, median(runs) <= limit);
}

Row at_least(int target, const std::string& what, const std::vector<double>& runs, double limit,
             const std::string& unit) {
    return held(target, what, runs, "at least " + number_text(limit), unit, median(runs) >= limit);
}

Row not_here(int target, const std::string& what, const std::string& wanted,
             const std::string& why) {
    return {target, what, "-", wanted, Verdict::not_here, why};
}

std::string table_text(const std::vector<Row>& rows) {
    std::vector<std::array<std::string, 5>> lines{{"target", "what", "figure", "wanted", ""}};
    for (const Row& row : rows) {
        lines.push_back(
            {std::to_string(row.target), row.what, row.figure, row.wanted, verdict_text(row)});
    }
    std::array<std::size_t, 5> width{};
    for (const auto& line : lines) {
        for (std::size_t i = 0; i < line.size(); ++i) {
            width[i] = std::max(width[i], line[i].size());
        }
    }
    std::string text;
    for (const auto& line : lines) {
        std::string one;
        for (std::size_t i = 0; i < line.size(); ++i) {
            one += line[i] + std::string(width[i] - line[i].size() + 2, ' ');
        }
        text += one.substr(0, one.find_last_not_of(' ') + 1) + "\n";
    }
    return text;
}

} // namespace vrid::measure
