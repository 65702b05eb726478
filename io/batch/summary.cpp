#include "io/batch/summary.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "io/write/caution.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/held_limits.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/table.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

std::string plain(double value) {
    return std::isfinite(value) ? shortest(value) : "";
}

/// Names and units of all numbers, in the order in which they first appear.
std::vector<RowNumber> all_numbers(const std::vector<Row>& rows) {
    std::vector<RowNumber> all;
    for (const Row& row : rows) {
        for (const RowNumber& number : row.numbers) {
            const bool known = contains(all, number.name, &RowNumber::name);
            if (!known) {
                all.push_back(number);
            }
        }
    }
    return all;
}

std::string number_cells(const Row& row, const std::string& name) {
    for (const RowNumber& number : row.numbers) {
        if (number.name == name) {
            return "," + plain(number.quantity.value) + "," + plain(number.quantity.error);
        }
    }
    return ",,";
}

template <class List, class Test> std::string names_where(const List& list, Test test) {
    std::string all;
    for (const auto& one : list) {
        if (test(one)) {
            all += (all.empty() ? "" : "; ") + one.name;
        }
    }
    return all;
}

std::string title(const Row& row, const std::vector<Row>& rows) {
    const std::string board = board_title(row, rows);
    return row.variant.empty() ? board : board + ", " + row.variant;
}

/// Problems of a file, a line each or more.
std::string wrapped_lines(const std::string& text, std::size_t indent) {
    std::string all;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        all += wrapped(text.substr(at, end - at), 80, indent);
        at = end + 1;
    }
    return all;
}

std::string signed_percent(double percent) {
    return (percent > 0 ? "+" : "") + significant(percent, 2);
}

std::string failures_text(const std::vector<Row>& rows) {
    std::string all;
    for (const Row& row : rows) {
        if (row.status != RowStatus::done) {
            all += "  " + title(row, rows) + ": " + status_text(row.status) +
                   (row.error.empty() ? "" : "\n" + wrapped_lines(row.error, 4));
            all += all.ends_with('\n') ? "" : "\n";
        }
    }
    return all.empty() ? "" : "failed or not run\n" + all + "\n";
}

std::string no_rest_text(const std::vector<Row>& rows) {
    std::string all;
    for (const Row& row : rows) {
        if (!row.no_rest.empty()) {
            all += wrapped(title(row, rows) + ": " + joined(row.no_rest, "; "), 80, 2);
        }
    }
    return all.empty() ? "" : "no equilibrium\n" + all + "\n";
}

std::string exceeded_text(const std::vector<Row>& rows) {
    Table table{{left("outside limits"), left("number"), right("min"), decimal("found"),
                 right("max"), left("unit"), left("")}};
    for (const Row& row : rows) {
        for (const HeldLimit& held : held_limits(row.limits)) {
            const LimitVerdict& verdict = held.worst;
            if (verdict.exceeded) {
                const auto bound = [](const std::optional<double>& value) {
                    return value ? plain(*value) : std::string();
                };
                const bool none = !std::isfinite(verdict.found->value);
                table.rows.push_back({title(row, rows), verdict.name, bound(verdict.limit.min),
                                      none ? "straight" : rounded(*verdict.found, verdict).value,
                                      bound(verdict.limit.max), verdict.found->unit,
                                      conditions_words(held)});
            }
        }
    }
    return table.rows.empty() ? "" : text(table) + "\n";
}

/// Why no row has a number of this name, if that is for what the suite does not run.
std::string not_run_words(const std::string& name, const std::vector<std::string>& names) {
    const auto any = [&](const std::string& start) {
        return std::ranges::any_of(names, [&](const auto& one) { return one.starts_with(start); });
    };
    if (name.starts_with("edge.") || !number_in_condition(name).empty()) {
        return any("edge ") ? "" : ": the suite has no [edge]";
    }
    const bool strength = name.starts_with("strength.");
    const std::string number = strength ? name.substr(std::string_view("strength.").size()) : name;
    for (const BenchCase& bench : case_table()) {
        const std::string& one = bench.info.name;
        if (number.starts_with(one) && !any(one) && !any("strength." + one)) {
            return ": " + one + " is not among the suite's cases";
        }
    }
    return "";
}

/// Limits that no finished row has a number for: a slip of the pen, or a case that was not run.
std::string idle_limits_text(const std::vector<Row>& rows) {
    std::map<std::string, bool> judged;
    std::vector<std::string> names;
    for (const Row& row : rows) {
        for (const LimitVerdict& verdict : row.limits) {
            judged[verdict.name] |= verdict.found.has_value();
        }
        for (const RowNumber& number : row.numbers) {
            names.push_back(number.name);
        }
    }
    std::string all;
    for (const auto& [name, any] : judged) {
        if (!any) {
            const std::string why = not_run_words(name, names);
            all += wrapped("\"" + name + "\"" + (why.empty() ? did_you_mean(name, names) : why), 80,
                           2);
        }
    }
    return all.empty() ? "" : "limits on numbers that no row has\n" + all + "\n";
}

/// A row's change, or the largest of one number of the edge in several conditions.
struct ShownChange {
    const DriftChange* change = nullptr;
    std::size_t conditions = 1;
};

std::vector<ShownChange> shown_changes(const Row& row, bool drift) {
    std::vector<ShownChange> all;
    for (const DriftChange& change : row.changes) {
        if (!change.resolved || change.drift != drift) {
            continue;
        }
        const std::string number = number_in_condition(change.name);
        const auto same = std::ranges::find_if(all, [&](const ShownChange& one) {
            return !number.empty() && number_in_condition(one.change->name) == number;
        });
        if (same == all.end()) {
            all.push_back({&change});
            continue;
        }
        ++same->conditions;
        if (std::abs(change.percent) > std::abs(same->change->percent)) {
            same->change = &change;
        }
    }
    return all;
}

/// Drift first, then what moved beyond its bars but less than the suite's percentage.
std::string drift_text(const std::vector<Row>& rows) {
    Table table{{left("moved"), left("number"), decimal("before"), decimal("now"),
                 decimal("percent"), left("")}};
    for (const bool drift : {true, false}) {
        for (const Row& row : rows) {
            for (const ShownChange& shown : shown_changes(row, drift)) {
                const DriftChange& change = *shown.change;
                const std::size_t more = shown.conditions - 1;
                table.rows.push_back(
                    {title(row, rows), change.name,
                     rounded(change.before.value, change.before.error).value,
                     rounded(change.after.value, change.after.error).value,
                     signed_percent(change.percent),
                     std::string(drift ? "drift" : "small") +
                         (more > 0 ? ", less in " + std::to_string(more) + " more" : "")});
            }
        }
    }
    return table.rows.empty() ? "" : text(table) + "\n";
}

Json changes_of(const Row& row) {
    Json all = Json::object();
    constexpr int digits = 4;
    for (const DriftChange& change : row.changes) {
        all[change.name] = {{"before", json_of(change.before)},
                            {"percent", round_significant(change.percent, digits)},
                            {"resolved", change.resolved},
                            {"drift", change.drift}};
    }
    return all;
}

} // namespace

std::string board_title(const Row& row, const std::vector<Row>& rows) {
    const bool shared = std::ranges::any_of(
        rows, [&](const Row& other) { return other.board == row.board && other.file != row.file; });
    return shared ? row.board + " (" + row.file + ")" : row.board;
}

std::string summary_csv(const std::vector<Row>& rows) {
    const std::vector<RowNumber> numbers = all_numbers(rows);
    std::string all = "board,file,variant,key,status,error";
    for (const RowNumber& number : numbers) {
        const std::string& unit = number.quantity.unit;
        all += "," + csv_text(number.name + (unit.empty() ? "" : " [" + unit + "]")) + "," +
               csv_text(number.name + " error");
    }
    all += ",limits exceeded,drift,no equilibrium\n";
    for (const Row& row : rows) {
        all += csv_text(row.board) + "," + csv_text(row.file) + "," + csv_text(row.variant) + "," +
               row.key + "," + status_text(row.status) + "," + csv_text(row.error);
        for (const RowNumber& number : numbers) {
            all += number_cells(row, number.name);
        }
        all += "," + csv_text(names_where(row.limits, [](const auto& l) { return l.exceeded; })) +
               "," + csv_text(names_where(row.changes, [](const auto& c) { return c.drift; })) +
               "," + csv_text(joined(row.no_rest, "; ")) + "\n";
    }
    return all;
}

std::string summary_json(const std::string& suite, const std::vector<Row>& rows) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["suite"] = suite;
    all["caution"] = caution;
    for (const Row& row : rows) {
        for (const RowNumber& number : row.numbers) {
            if (number.name.starts_with("strength.")) {
                all["strength_caution"] = strength_caution();
            }
        }
    }
    all["rows"] = Json::array();
    for (const Row& row : rows) {
        Json one{{"board", row.board},     {"file", row.file},
                 {"variant", row.variant}, {"key", row.key},
                 {"folder", row.folder},   {"status", status_text(row.status)},
                 {"error", row.error},     {"numbers", Json::object()}};
        for (const RowNumber& number : row.numbers) {
            one["numbers"][number.name] = json_of(number.quantity);
            if (number.name.starts_with("strength.")) {
                one["numbers"][number.name]["resolved"] = number.resolved;
            }
        }
        one["limits"] = written(row.limits);
        one["changes"] = changes_of(row);
        one["no_equilibrium"] = row.no_rest;
        all["rows"].push_back(one);
    }
    return json_text(all);
}

std::string summary_text(const std::vector<Row>& rows) {
    const auto done = std::ranges::count(rows, RowStatus::done, &Row::status);
    return failures_text(rows) + no_rest_text(rows) + exceeded_text(rows) + idle_limits_text(rows) +
           drift_text(rows) + std::to_string(done) + " of " + std::to_string(rows.size()) +
           " done\n";
}

bool any_failed(const std::vector<Row>& rows) {
    return std::ranges::any_of(rows, [](const Row& row) { return row.status != RowStatus::done; });
}

bool any_exceeded(const std::vector<Row>& rows) {
    return std::ranges::any_of(rows, [](const Row& row) {
        return std::ranges::any_of(row.limits, &LimitVerdict::exceeded);
    });
}

bool any_without_rest(const std::vector<Row>& rows) {
    return std::ranges::any_of(rows, [](const Row& row) { return !row.no_rest.empty(); });
}

bool any_drift(const std::vector<Row>& rows) {
    return std::ranges::any_of(
        rows, [](const Row& row) { return std::ranges::any_of(row.changes, &DriftChange::drift); });
}

} // namespace vrid
