#include "io/write/lot_report.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"
#include "io/write/table.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

std::string shown(const LotName& name, double si, int digits) {
    return significant(si * name.per_si, digits);
}

std::string section(const std::string& title, const Table& table) {
    return table.rows.empty() ? "" : "\n" + title + "\n" + text(table);
}

std::string number_section(const LotReport& report) {
    Table table{{left("number"), decimal("predicted"), decimal("sd"), decimal("found"),
                 decimal("+-"), decimal("sd"), left("unit"), right("cells")}};
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        const LotNumber& number = report.findings.numbers[k];
        const LotName& name = report.numbers[k];
        const bool found = number.found.cells > 0;
        table.rows.push_back({name.name, shown(name, number.predicted, 5),
                              shown(name, number.predicted_sd, 2),
                              found ? shown(name, number.found.mean, 5) : "",
                              found ? shown(name, number.mean_sd, 2) : "",
                              found ? shown(name, number.found.sd, 2) : "", name.unit,
                              std::to_string(number.found.cells)});
    }
    return section("numbers, predicted and found (sd of readings: boards and rig)", table);
}

std::string outlier_section(const LotReport& report) {
    Table table{
        {left("outlier"), decimal("D2"), right("cells"), left("by"), decimal("off by"), left("")}};
    for (const LotOutlier& outlier : report.findings.outliers) {
        const bool any = outlier.reading || outlier.value;
        const LotName name = outlier.reading ? report.numbers[place_in(*outlier.reading)]
                             : outlier.value ? report.values[place_in(*outlier.value)]
                                             : LotName{};
        table.rows.push_back({report.serials[place_in(outlier.board)], fixed(outlier.distance, 1),
                              std::to_string(outlier.cells), name.name,
                              any ? shown(name, outlier.by, 3) : "", name.unit});
    }
    return section("boards that do not belong (left out of what follows)", table);
}

std::string change_section(const LotReport& report) {
    Table table{{left("change"), left("as a"), left("first board"), left("from"), left("to"),
                 decimal("moved by"), decimal("sd"), left(""), decimal("chi2")}};
    const LotChange& change = report.findings.change;
    const LotName& name = report.values[place_in(change.value)];
    const auto add = [&](const char* shape, const FirstBoard& one) {
        const auto serial = [&](Index board) { return report.serials[place_in(board)]; };
        table.rows.push_back({name.name, shape, serial(one.first), serial(one.from), serial(one.to),
                              shown(name, one.shift, 3), shown(name, one.sd, 2), name.unit,
                              fixed(one.G2, 1)});
    };
    if (report.findings.changed) {
        add("step", change.step);
        add("ramp", change.ramp);
    }
    return section("what changed, and how far if that value alone did (of a ramp: until the last "
                   "board)",
                   table);
}

void add_shift(const LotReport& report, const ValueShift& shift,
               const std::vector<std::string>& first, Table& table) {
    const LotName& name = report.values[place_in(shift.value)];
    std::vector<std::string> row = first;
    row.insert(row.end(), {name.name, shown(name, shift.shift, 3), shown(name, shift.sd, 2),
                           name.unit, fixed(shift.shift / report.model.value_sd(shift.value), 1)});
    table.rows.push_back(row);
}

std::string explanation_section(const LotReport& report) {
    constexpr std::size_t most = 8;
    Table table{{decimal("p"), left("value"), decimal("shift"), decimal("sd"), left(""),
                 decimal("in tolerances")}};
    const LotMoved& moved = report.findings.moved;
    for (std::size_t i = 0; i < std::min(most, moved.explanations.size()); ++i) {
        std::string p = chance_text(moved.explanations[i].p);
        for (const ValueShift& shift : moved.explanations[i].shifts) {
            add_shift(report, shift, {p}, table);
            p.clear();
        }
    }
    const std::string more =
        moved.explanations.size() > most
            ? "  and " + std::to_string(moved.explanations.size() - most) + " more in lot.json\n"
            : "";
    return section(moved.explained ? "what alone explains the mean, smallest first"
                                   : "what comes nearest to the mean",
                   table) +
           more;
}

std::string held_section(const LotReport& report) {
    constexpr double worth = 0.5; // of a deviation, or half of it known better
    Table table{
        {left("value"), decimal("shift"), decimal("sd"), left(""), decimal("in tolerances")}};
    std::vector<ValueShift> held = report.findings.moved.held;
    const auto size = [&](const ValueShift& shift) {
        return std::abs(shift.shift) / report.model.value_sd(shift.value);
    };
    std::ranges::stable_sort(
        held, [&](const ValueShift& a, const ValueShift& b) { return size(a) > size(b); });
    for (const ValueShift& shift : held) {
        if (size(shift) > worth && table.rows.size() < 10) {
            add_shift(report, shift, {}, table);
        }
    }
    return section("all values at once, each held by its tolerance: shifts above half a tolerance",
                   table);
}

std::string factor_section(const LotReport& report) {
    Table table{{left("group of [tolerance]"), decimal("factor on sd"), decimal("from"),
                 decimal("to"), decimal("p"), decimal("Holm")}};
    const auto root = [](double factor) { return fixed(std::sqrt(factor), 2); };
    for (const GroupFactor& factor : report.findings.factors) {
        if (table.rows.size() < 8) {
            table.rows.push_back({report.groups[factor.group], root(factor.factor),
                                  root(factor.low), factor.high ? root(*factor.high) : "any",
                                  chance_text(factor.p), chance_text(factor.holm)});
        }
    }
    std::string all = section("how each scatters against what is declared, alone", table);
    Table joint{{left("together"), decimal("factor on variance"), decimal("sd")}};
    for (const JointFactor& factor : report.findings.joint) {
        joint.rows.push_back(
            {report.groups[factor.group], fixed(factor.factor, 2), fixed(factor.sd, 2)});
    }
    return all + section("tested together", joint);
}

std::string capability_section(const LotReport& report) {
    Table table{{left("limits of"), left("boards"), decimal("mean"), decimal("sd, rig off"),
                 right("outside"), right("from"), right("to"), decimal("Cpk"), decimal("+-")}};
    const bool before = report.findings.about == LotBoards::before_change;
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        const auto add = [&](const std::optional<Capability>& one, const char* which) {
            if (one) {
                const LotName& name = report.numbers[k];
                table.rows.push_back({name.name, which, shown(name, one->mean, 5),
                                      shown(name, one->sd, 3), share_text(one->outside),
                                      share_text(one->low), share_text(one->high),
                                      fixed(one->cpk, 2), fixed(one->cpk_half_width, 2)});
            }
        };
        add(report.findings.numbers[k].built, before ? "before" : "all");
        add(report.findings.numbers[k].late, "last fifth");
    }
    return section("capability", table);
}

std::string boards_section(const LotReport& report) {
    Table table{{left("to see a shift of one tolerance of"), right("boards, alone"),
                 right("boards, all may move")}};
    const auto count = [](double boards) {
        return boards < 1e6 ? fixed(boards, 0) : std::string("never");
    };
    std::vector<BoardsNeeded> boards = report.plan->boards;
    std::ranges::stable_sort(boards,
                             [](const auto& a, const auto& b) { return a.alone < b.alone; });
    for (const BoardsNeeded& one : boards) {
        if (table.rows.size() < 15) {
            table.rows.push_back({report.values[place_in(one.value)].name, count(one.alone),
                                  one.all ? count(*one.all) : "never"});
        }
    }
    return section("boards needed (error 0.05, power 0.9)", table);
}

std::string plan_section(const LotReport& report) {
    if (!report.plan) {
        return "";
    }
    const LotPlan& plan = *report.plan;
    const bool rivals = !plan.rivals.empty();
    Table table{{left("measure as well"), decimal("D"), decimal("A"),
                 decimal(rivals ? "rivals apart" : "")}};
    for (const NextReadings& next : plan.next) {
        const std::string names = joined(next.readings, " and ", [&](Index reading) {
            return plan.candidates[place_in(reading)];
        });
        table.rows.push_back({names.empty() ? "nothing" : names, fixed(next.D, 2), fixed(next.A, 2),
                              next.rivals ? fixed(*next.rivals, 3) : ""});
    }
    std::string title = "what to measure next, of " + fixed(plan.lot, 0) +
                        " boards (D: information gained; A: variances left, in tolerances squared";
    if (rivals) {
        title += "; rivals: variance left between " + report.values[place_in(plan.rivals[0])].name +
                 " and " + report.values[place_in(plan.rivals[1])].name;
    }
    title += ")";
    const std::string of = joined(plan.interest, ", ",
                                  [&](Index value) { return report.values[place_in(value)].name; });
    return boards_section(report) + section(title, table) +
           (of.empty() ? "" : wrapped("D and A are about the shifts of " + of, 100, 2));
}

} // namespace

std::string lot_text(const LotReport& report) {
    const auto cells = (report.readings.count.array() > 0).count();
    std::string all = report.board + ": " + std::to_string(report.serials.size()) + " boards, " +
                      std::to_string(report.numbers.size()) + " numbers, " + std::to_string(cells) +
                      " cells\n\n";
    const std::vector<std::string> lines = lot_lines(report);
    for (const std::string& line : lines) {
        all += wrapped(line, 100, 2);
    }
    if (lines.empty()) {
        all += "  nothing found: the lot is what was predicted\n";
    }
    for (const std::string& note : lot_notes(report)) {
        all += wrapped("note: " + note, 100, 2);
    }
    const LotFindings& found = report.findings;
    all += "\n  mean as predicted: p " + chance_text(found.moved.p) + "; spread as declared: " +
           (found.spread ? "p " + chance_text(found.spread->p) : "not tested") +
           "; no change in time: p " + chance_text(found.change.p) + "\n";
    return all + number_section(report) + outlier_section(report) + change_section(report) +
           explanation_section(report) + held_section(report) + factor_section(report) +
           capability_section(report) + plan_section(report);
}

} // namespace vrid
