#include "io/design/read_free_values.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "io/design/design_values.hpp"
#include "io/materials/design_paths.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/design/line_kinds.hpp"
#include "solver/design/shape_change.hpp"

namespace vrid {

namespace {

constexpr double rounding = 1e-9; // of limits and values that went to SI and back, relative

std::string no_such_value(const std::string& value, const Board& board) {
    const std::string found = "found \"" + value + "\"; accepted: ";
    const std::vector<std::string> all = design_value_paths(board);
    if (!covered_paths(value, all).empty()) {
        return found + "a number that a result depends on; this one is a name, a strength or an "
                       "expansion";
    }
    std::vector<std::string> valid = number_paths(board);
    const std::size_t paths = valid.size();
    for (std::size_t i = 0; i < paths; ++i) {
        valid.push_back(key_of_path(valid[i]));
    }
    return found +
           "a design value of this board or a group, \"core.thickness_mm\", "
           "\"layer.*.angle_deg\"" +
           did_you_mean(value, valid);
}

/// The paths that the table means; empty after a problem.
std::vector<std::string> read_paths(TableReader& table, const std::string& value,
                                    const Board& board) {
    if (value.empty()) {
        return {};
    }
    std::vector<std::string> paths = covered_paths(value, number_paths(board));
    if (paths.empty()) {
        table.problem("value", no_such_value(value, board));
        return {};
    }
    const auto unit = file_unit(key_of_path(paths.front())).name;
    const bool mixed = std::ranges::any_of(
        paths, [&](const std::string& path) { return file_unit(key_of_path(path)).name != unit; });
    if (mixed) {
        table.problem("value", "found \"" + value + "\", which means values in different units");
        return {};
    }
    return paths;
}

/// A limit in the unit of the file; the bound of the physical range if absent, nan after a problem.
double read_limit(TableReader& table, const char* key, const FreeValue& free, FreeFor purpose) {
    const bool lower = std::string(key) == "min";
    const auto given =
        purpose == FreeFor::match ? std::optional(table.number(key)) : table.number_if(key);
    double limit = given ? *given : lower ? -HUGE_VAL : HUGE_VAL;
    for (const std::string& path : free.names) {
        const Accepted& range = accepted(key_of_path(path));
        if (given && !std::isnan(limit) && !is_accepted(range, limit)) {
            table.wrong(key, accepted_text(range) + " for " + path);
            return std::nan("");
        }
        limit = given ? limit : lower ? std::max(limit, range.min) : std::min(limit, range.max);
    }
    return limit;
}

/// Tells of values that start outside; SI.
void check_start(TableReader& table, const FreeValue& free, const Board& board) {
    const double slack = rounding * std::max(std::abs(free.min), std::abs(free.max));
    const auto written = [](const std::string& key, double value) {
        constexpr int digits = 12; // 1.8 is told from a limit of 1.8000001
        return shortest(round_significant(from_si(key, value), digits));
    };
    std::string outside;
    int count = 0;
    for (const std::string& path : free.names) {
        const double now = find_design(board, path)->value;
        if (now < free.min - slack || now > free.max + slack) {
            constexpr int most = 3;
            if (++count <= most) {
                outside +=
                    (count > 1 ? ", " : "") + path + " is " + written(key_of_path(path), now);
            }
        }
    }
    if (count > 0) {
        const std::string key = key_of_path(free.names.front());
        table.problem("value",
                      "starts outside its limits " + written(key, free.min) + " to " +
                          written(key, free.max) + ": " + outside +
                          (count > 3 ? " and " + std::to_string(count - 3) + " more" : ""));
    }
}

void read_limits_of(TableReader& table, FreeValue& free, const Board& board, FreeFor purpose) {
    free.min = read_limit(table, "min", free, purpose);
    free.max = read_limit(table, "max", free, purpose);
    if (free.names.empty() || std::isnan(free.min) || std::isnan(free.max)) {
        return;
    }
    const std::string key = key_of_path(free.names.front());
    if (!(free.min < free.max)) {
        table.wrong("max", "a number above min");
        return;
    }
    free.min = to_si(key, free.min);
    free.max = to_si(key, free.max);
    check_start(table, free, board);
}

void read_steps(TableReader& table, FreeValue& free, FreeFor purpose) {
    if (purpose == FreeFor::calibrate) {
        // Each rounded by itself, values that the readings tell only together would fit no more.
        table.refuse("max_slope",
                     "not accepted in a bench file: the fit finds the slopes that were "
                     "built, not those to build; min and max hold a station");
        table.refuse("round_to", "not accepted in a bench file: the fit estimates what was built, "
                                 "each value with its deviation, and steps of the shop are no part "
                                 "of that");
        return;
    }
    free.max_slope = table.number_if("max_slope");
    free.round_to = table.number_if("round_to");
    if (free.names.empty()) {
        return;
    }
    const std::string key = key_of_path(free.names.front());
    const bool stations = std::ranges::all_of(free.ids, [](const DesignId& id) {
        return id.kind->property == DesignProperty::core_thickness;
    });
    if (free.max_slope && !stations) {
        table.problem("max_slope", "only stations of the core, core.thickness_mm, have a slope");
    }
    if (free.round_to) {
        free.round_to = to_si(key, *free.round_to);
        const double first = std::ceil(free.min / *free.round_to * (1 - rounding));
        if (first * *free.round_to > free.max * (1 + rounding)) {
            table.wrong("round_to", "a step that has a multiple between min and max");
        }
    }
}

void read_carry(TableReader& table, FreeValue& free, const Board& board) {
    if (!table.has("carry")) {
        return;
    }
    for (const std::string& word : table.texts("carry")) {
        const std::vector<std::string> paths = covered_paths(word, number_paths(board));
        for (const std::string& path : paths) {
            const DesignId id = find_design(board, path)->id;
            if (!is_station(id)) {
                table.problem("carry", "found " + path + ", which is no station along the board");
                return;
            }
            free.carry.push_back(id);
        }
        if (paths.empty()) {
            table.problem("carry", "found \"" + word + "\", no value of this board");
        }
    }
    const bool lines =
        std::ranges::all_of(free.ids, [](const DesignId& id) { return id.kind->moves_lines; });
    if (!free.ids.empty() && (free.ids.size() != 1 || !lines)) {
        table.problem("carry", "accepted only with one value of the outline or of the stance");
    }
}

/// A board must exist at both given limits of a value that moves lines.
void check_shape(TableReader& table, const FreeValue& free, const Board& board) {
    for (std::size_t i = 0; i < free.ids.size(); ++i) {
        if (!free.ids[i].kind->moves_lines || !(free.min < free.max)) {
            continue;
        }
        for (const bool lower : {true, false}) {
            if (!table.has(lower ? "min" : "max")) {
                continue; // the physical range: the search keeps away from what cannot be
            }
            const double limit = lower ? free.min : free.max;
            try {
                hold_waist(with_line_value(board, {free.ids[i], free.carry}, limit), board);
            } catch (const InputError& error) {
                table.problem(lower ? "min" : "max",
                              "there is no such board: " + error.problems().front().message);
            }
        }
    }
}

/// Each value has one place; the core is scaled or moved by stations, not both.
void check_apart(const std::vector<FreeValue>& all, Reading& reading) {
    std::map<std::string, std::string> places;
    for (const FreeValue& free : all) {
        for (const std::string& path : free.names) {
            const auto [at, fresh] = places.emplace(path, free.place);
            if (!fresh) {
                note_problem(reading, free.place,
                             "free.value: " + path + " is free already at " + at->second);
                break;
            }
        }
    }
    const auto scale = places.find("core.thickness_scale");
    const auto station = places.lower_bound("core.thickness_mm[");
    if (scale != places.end() && station != places.end() &&
        station->first.starts_with("core.thickness_mm[")) {
        note_problem(reading, scale->second,
                     "free.value: core.thickness_scale moves the stations that are free at " +
                         station->second + "; accepted: one of the two");
    }
}

} // namespace

std::vector<FreeValue> read_free_values(TableReader& root, const Board& board, FreeFor purpose) {
    std::vector<FreeValue> all;
    auto tables = root.tables("free");
    if (tables.empty()) {
        root.wrong("free", "at least one [[free]] with a value that may change");
    }
    for (TableReader& table : tables) {
        FreeValue free;
        free.place = table.place();
        free.value = table.text("value");
        free.names = read_paths(table, free.value, board);
        for (const std::string& path : free.names) {
            free.ids.push_back(find_design(board, path)->id);
        }
        read_limits_of(table, free, board, purpose);
        if (purpose == FreeFor::match) {
            read_carry(table, free, board);
        }
        check_shape(table, free, board);
        read_steps(table, free, purpose);
        table.finish();
        all.push_back(std::move(free));
    }
    check_apart(all, root.reading());
    return all;
}

std::size_t path_count(const std::vector<FreeValue>& free) {
    std::size_t count = 0;
    for (const FreeValue& value : free) {
        count += value.ids.size();
    }
    return count;
}

void read_optional_format(TableReader& root) {
    const auto format = root.number_if("format");
    if (format && !std::isnan(*format) && *format != 1) {
        root.wrong("format", "1");
    }
}

} // namespace vrid
