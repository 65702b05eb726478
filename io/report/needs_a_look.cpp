// What a reader must see first: failed, outside limits, drifted, warned.
#include <algorithm>
#include <cctype>

#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/held_limits.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

std::string shown(const ReportNumber& of) {
    const BenchQuantity& quantity = of.quantity;
    const RoundedNumber number =
        of.limit ? rounded(quantity, *of.limit) : rounded(quantity.value, quantity.error);
    const std::string bar = bar_markup(of, number);
    const std::string unit = quantity.unit.empty() ? "" : " " + escaped(quantity.unit);
    return of.resolved ? number.value + (bar.empty() ? "" : " " + bar) + unit
                       : number.value + unit + " (" + bar + ")";
}

std::string range_text(const Limit& limit) {
    const std::string low = limit.min ? csv_cell(*limit.min) : "";
    const std::string high = limit.max ? csv_cell(*limit.max) : "";
    return low.empty()    ? ", limit at most " + high
           : high.empty() ? ", limit at least " + low
                          : ", limits " + low + " to " + high;
}

/// A warning of several rows that differs by its numbers at most: shown once, of the first row.
struct Warned {
    std::string kind, where, what;
    int rows = 0;
};

std::string without_digits(std::string text) {
    text.erase(std::remove_if(text.begin(), text.end(),
                              [](unsigned char c) { return std::isdigit(c) != 0; }),
               text.end());
    return text;
}

/// The findings of a page by kind, in the order of the page.
struct Looks {
    std::vector<std::string> failed, outside, drifted, close;
    std::vector<Warned> warned;

    static void add(std::vector<std::string>& kind, const std::string& where,
                    const std::string& what) {
        kind.push_back("<b>" + escaped(where) + "</b>: " + what);
    }

    void warn(const std::string& where, const std::string& what) {
        const std::string kind = without_digits(what);
        const auto found = std::ranges::find(warned, kind, &Warned::kind);
        if (found == warned.end()) {
            warned.push_back({kind, where, what, 1});
        } else if (found->where != where) {
            ++found->rows;
        }
    }

    [[nodiscard]] std::vector<std::string> warnings() const {
        std::vector<std::string> all;
        for (const Warned& one : warned) {
            const int more = one.rows - 1;
            all.push_back("<b>" + escaped(one.where) + "</b>" +
                          (more == 0 ? "" : " and " + std::to_string(more) + " more") + ": " +
                          escaped(one.what));
        }
        return all;
    }
};

/// The limits of a row's numbers; the same in several conditions of the edge by the worst.
void look_at_limits(Looks& looks, const std::string& name, const ReportRow& row) {
    std::vector<LimitVerdict> verdicts;
    for (const ReportNumber& number : row.numbers) {
        if (number.limit) {
            verdicts.push_back(*number.limit);
        }
    }
    for (const HeldLimit& held : held_limits(verdicts)) {
        const auto number = std::ranges::find(row.numbers, held.worst.name, &ReportNumber::name);
        if (held.worst.exceeded) {
            const std::string where = conditions_words(held);
            Looks::add(looks.outside, name,
                       escaped(number->name) + " " + shown(*number) + range_text(held.worst.limit) +
                           (held.worst.unresolved ? ", by less than the error bar" : "") +
                           (where.empty() ? "" : "; outside " + where));
        }
    }
}

void look_at(Looks& looks, const std::string& name, const ReportNumber& number) {
    const std::string what = escaped(number.name) + " " + shown(number);
    if (number.limit && !number.limit->exceeded && number.limit->unresolved) {
        Looks::add(looks.close, name, what + range_text(number.limit->limit));
    }
    if (number.drift) {
        Looks::add(looks.drifted, name,
                   what + ", " + (*number.percent > 0 ? "+" : "") + fixed(*number.percent, 2) +
                       " % since the baseline");
    }
}

Looks looks_of(const Report& report) {
    Looks looks;
    for (const ReportRow& row : report.rows) {
        const std::string name = row.variant.empty() ? row.board : row.board + ", " + row.variant;
        if (!row.error.empty()) {
            Looks::add(looks.failed, name, escaped_lines(row.error));
            continue;
        }
        for (const EdgeState& state : row.edge) {
            if (!state.no_equilibrium.empty()) {
                Looks::add(looks.failed, name,
                           escaped(state.name) + ": no equilibrium, " +
                               escaped(state.no_equilibrium));
            }
        }
        look_at_limits(looks, name, row);
        for (const ReportNumber& number : row.numbers) {
            look_at(looks, name, number);
        }
        for (const auto& [what, value] : row.facts) {
            if (what == "warning") {
                looks.warn(name, value);
            }
        }
    }
    return looks;
}

std::string list(const std::string& title, const std::vector<std::string>& items) {
    constexpr std::size_t most = 12; // unfolded: a long night must not hide the overview
    if (items.empty()) {
        return "";
    }
    std::string html = "<h3>" + title + " (" + std::to_string(items.size()) + ")</h3>\n<ul>";
    for (std::size_t i = 0; i < items.size(); ++i) {
        html += i == most ? "</ul>\n<details><summary>" + std::to_string(items.size() - most) +
                                " more</summary><ul>"
                          : "";
        html += "<li>" + items[i] + "</li>";
    }
    return html + (items.size() > most ? "</ul></details>\n" : "</ul>\n");
}

/// Limits that nothing of the page was held against: no verdict, but no reason to think that all is
/// well either.
std::string unjudged_words(const Report& report) {
    std::vector<std::string> names;
    for (const ReportRow& row : report.rows) {
        for (const std::string& name : row.unjudged) {
            add_once(names, name);
        }
    }
    return names.empty() ? ""
                         : "<p>Limits that were not judged, as their numbers are not here: " +
                               escaped(joined(names)) + ".</p>\n";
}

} // namespace

std::string needs_a_look(const Report& report) {
    const Looks looks = looks_of(report);
    const std::string lists = list("Failed", looks.failed) +
                              list("Outside its limits", looks.outside) +
                              list("Drifted", looks.drifted) +
                              list("Within its limits by less than the error bar", looks.close) +
                              list("Warnings", looks.warnings());
    return "<section class=\"look" + std::string(lists.empty() ? " fine" : "") +
           "\" aria-labelledby=\"look\"><h2 id=\"look\">Needs a look</h2>\n" +
           (lists.empty()
                ? "<p>Nothing: no failure, no limit exceeded, " +
                      std::string(report.has_baseline ? "no drift, " : "") + "no warning.</p>\n"
                : lists) +
           unjudged_words(report) + "</section>\n";
}

} // namespace vrid
