#include "io/materials/tolerances.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include "io/materials/design_paths.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/units.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

/// The number in "3 %"; nothing if the text is of another form.
std::optional<double> percentage(std::string_view text) {
    double value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    const std::string_view rest = text.substr(static_cast<std::size_t>(read.ptr - text.data()));
    const std::size_t blank = std::min(rest.find_first_not_of(' '), rest.size());
    return read.ec == std::errc{} && rest.substr(blank) == "%" ? std::optional(value)
                                                               : std::nullopt;
}

/// The entry, or what is wrong with the value.
std::optional<ToleranceEntry> entry_of(const ValueEntry& entry, std::string& wrong) {
    const std::string unit(file_unit(key_of_path(entry.path)).name);
    const std::string accepts =
        std::string("; accepted: one standard deviation, a number above 0") +
        (unit.empty() ? "" : " (" + unit + ")");
    const auto* text = std::get_if<std::string>(&entry.value);
    if (text == nullptr) {
        const double value = std::get<double>(entry.value);
        if (!is_accepted(accepted("tolerance"), value)) {
            wrong = "found " + number_text(value) + accepts + ", or a text like \"3 %\"";
            return std::nullopt;
        }
        return ToleranceEntry{value, false, ""};
    }
    const auto percent = percentage(*text);
    if (percent && file_unit(key_of_path(entry.path)).name == "deg") {
        wrong = "found \"" + *text + "\", but a percentage of an angle makes no sense" + accepts;
        return std::nullopt;
    }
    if (!percent || !is_accepted(accepted("tolerance.percent"), *percent)) {
        wrong = "found \"" + text->substr(0, 60) + "\"" + accepts +
                ", or a share of the nominal value above 0 and up to 100, \"3 %\"";
        return std::nullopt;
    }
    return ToleranceEntry{*percent, true, ""};
}

void read_entry(std::map<std::string, ToleranceEntry>& tolerance, TableReader& table,
                const ValueEntry& value) {
    std::string wrong;
    if (auto entry = entry_of(value, wrong)) {
        tolerance[value.path] = *entry;
    } else {
        note_problem(table.reading(), value.place,
                     "tolerance.\"" + value.path.substr(0, 80) + "\": " + wrong);
    }
}

using Entries = std::map<std::string, ToleranceEntry>;

/// The entry that is meant for a path; the end if none.
Entries::const_iterator entry_for(const Entries& entries, const std::string& path) {
    auto best = entries.find(path);
    if (best != entries.end()) {
        return best;
    }
    for (auto at = entries.begin(); at != entries.end(); ++at) {
        if (covers(at->first, path) &&
            (best == entries.end() || precision(at->first) > precision(best->first))) {
            best = at;
        }
    }
    return best;
}

double deviation(const ToleranceEntry& entry, const std::string& path, double nominal) {
    return entry.percent ? std::abs(nominal) * entry.value / 100
                         : to_si(key_of_path(path), entry.value);
}

/// Whether a value is the most that can be, as the share that a material which does not creep shows
/// after hours: half of all boards that a deviation draws of it could not be.
bool is_most(const std::string& path, double nominal) {
    const std::string key = key_of_path(path);
    return from_si(key, nominal) >= accepted(key).max;
}

} // namespace

void read_tolerance(std::map<std::string, ToleranceEntry>& tolerance, TableReader& root,
                    const std::vector<std::string>& valid) {
    auto table = root.table_if("tolerance");
    if (!table) {
        return;
    }
    for (const ValueEntry& value : table->flat_values()) {
        table->reading().places.try_emplace("tolerance." + value.path, value.place);
        const bool pattern = value.path.find('*') != std::string::npos;
        if (covered_paths(value.path, valid).empty()) {
            note_problem(table->reading(), value.place,
                         "tolerance.\"" + value.path.substr(0, 80) +
                             "\": no design value of this " + "board" + (pattern ? " fits" : "") +
                             did_you_mean(value.path, valid));
        }
        read_entry(tolerance, *table, value);
    }
}

void read_default_tolerance(std::map<std::string, ToleranceEntry>& tolerance, TableReader& root) {
    auto table = root.table_if("tolerance");
    if (!table) {
        return;
    }
    for (auto& [path, entry] : table->entries("tolerance")) {
        const std::string source = entry.text("source");
        if (tolerance.contains(path)) {
            table->problem(path, "the library has this tolerance already, in another file");
        }
        for (ValueEntry& value : entry.flat_values()) {
            if (value.path == "value") {
                value.path = path;
                read_entry(tolerance, *table, value);
            }
        }
        if (!entry.has("value")) {
            entry.problem("value", "missing; this key is required");
        }
        entry.know({"value"});
        entry.finish();
        if (const auto found = tolerance.find(path); found != tolerance.end()) {
            found->second.source = source;
        }
    }
    table->finish();
}

std::vector<Tolerance> tolerances_of(const Board& board, const MaterialLibrary& library) {
    std::vector<Tolerance> all;
    for (const std::string& path : number_paths(board)) {
        const DesignFound nominal = *find_design(board, path);
        auto entry = entry_for(board.tolerance, path);
        const bool own = entry != board.tolerance.end();
        if (!own) {
            entry = entry_for(library.tolerance, path);
        }
        const bool named = own && entry->first == path;
        if ((own || entry != library.tolerance.end()) && (named || !is_most(path, nominal.value))) {
            const double sd = deviation(entry->second, path, nominal.value);
            if (sd > 0) {
                all.push_back(
                    {nominal.id, sd, own ? "[tolerance] of the board" : entry->second.source});
            }
        }
    }
    return all;
}

std::string tolerance_entry(const Board& board, const MaterialLibrary& library,
                            const std::string& path) {
    if (const auto own = entry_for(board.tolerance, path); own != board.tolerance.end()) {
        return own->first;
    }
    const auto found = entry_for(library.tolerance, path);
    return found == library.tolerance.end() ? "" : found->first;
}

std::vector<std::string> tolerances_without_effect(const Board& board) {
    const std::vector<std::string> paths = number_paths(board);
    std::vector<std::string> idle;
    for (const auto& [pattern, entry] : board.tolerance) {
        if (covered_paths(pattern, paths).empty()) {
            idle.push_back(pattern);
        }
    }
    return idle;
}

} // namespace vrid
