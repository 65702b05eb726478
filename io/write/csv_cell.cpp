#include "io/write/csv_cell.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

/// Whether a spreadsheet reads a formula, apostrophes at the start aside.
bool is_like_formula(const std::string& text) {
    const std::size_t first = text.find_first_not_of('\'');
    return first != std::string::npos &&
           std::string("=+-@\t\r").find(text[first]) != std::string::npos;
}

/// A cell that begins with a quote; `at` is on that quote and moves behind the closing one.
std::string quoted_cell(const std::string& text, std::size_t& at) {
    std::string cell;
    for (++at; at < text.size(); ++at) {
        if (text[at] == '"') {
            if (at + 1 == text.size() || text[at + 1] != '"') {
                ++at;
                break;
            }
            ++at; // two quotes are one
        }
        cell += text[at];
    }
    return cell;
}

} // namespace

std::string csv_text(const std::string& text) {
    const std::string guarded = (is_like_formula(text) ? "'" : "") + text;
    if (guarded.find_first_of(",\"\n\r") == std::string::npos) {
        return guarded;
    }
    std::string all = "\"";
    for (const char c : guarded) {
        all += c == '"' ? "\"\"" : std::string(1, c);
    }
    return all + "\"";
}

std::vector<std::string> csv_row(const std::string& text, std::size_t& at) {
    std::vector<std::string> cells;
    for (bool more = true; more;) {
        std::string cell = at < text.size() && text[at] == '"' ? quoted_cell(text, at) : "";
        const std::size_t end = std::min(text.find_first_of(",\n", at), text.size());
        cell += text.substr(at, end - at);
        more = end < text.size() && text[end] == ',';
        at = end + 1;
        cells.push_back(cell.starts_with('\'') && is_like_formula(cell) ? cell.substr(1) : cell);
    }
    return cells;
}

std::string csv_cell(double value) {
    constexpr int digits = 9;
    return std::isfinite(value) ? shortest(round_significant(value, digits) + 0.0) : ""; // no "-0"
}

std::string csv_cell(double value, Unit unit) {
    return csv_cell(to_bench({value, 0, unit}).value);
}

} // namespace vrid
