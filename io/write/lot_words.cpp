#include "io/write/lot_report.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

std::string in_unit(const LotName& name, double si, int digits) {
    return significant(si * name.per_si, digits) + (name.unit.empty() ? "" : " " + name.unit);
}

std::string signed_text(const LotName& name, double si) {
    return (si > 0 ? "+" : "") + in_unit(name, si, 3);
}

std::string shift_words(const LotReport& report, const ValueShift& shift,
                        const std::string& between = " ") {
    const LotName& name = report.values[place_in(shift.value)];
    return name.name + between + signed_text(name, shift.shift) + " +- " +
           significant(shift.sd * name.per_si, 2);
}

/// What hardly any shop has: a value that moved by many times its own tolerance.
std::string tolerances_words(const LotReport& report, Index value, double shift) {
    constexpr double hardly = 5; // tolerances
    const double tolerances = std::abs(shift) / report.model.value_sd(value);
    return !std::isfinite(tolerances) || tolerances <= hardly
               ? ""
               : " (" + significant(tolerances, 2) +
                     " times its tolerance: look for a cause that is none of the values)";
}

std::string change_line(const LotReport& report) {
    const LotChange& change = report.findings.change;
    const FirstBoard& best = change.best();
    const auto serial = [&](Index board) { return report.serials[place_in(board)]; };
    std::string line = "from about " + serial(best.first) +
                       (change.shape == ChangeShape::ramp ? " (ramp, " : " (step, ");
    line += best.from == best.to ? "that board" : serial(best.from) + " to " + serial(best.to);
    if (const std::string& date = report.dates[place_in(best.first)]; !date.empty()) {
        line += ", " + date;
    }
    for (const LotText& text : report.texts) {
        if (const std::string& word = text.words[place_in(best.first)]; !word.empty()) {
            line.append(", ").append(text.column).append(" ").append(word);
        }
    }
    line += ") " + shift_words(report, {change.value, best.shift, best.sd}, " by ");
    line += change.shape == ChangeShape::ramp ? " until the last board" : "";
    line += tolerances_words(report, change.value, best.shift);
    constexpr std::size_t most = 4;
    for (std::size_t i = 0; i < std::min(most, change.rivals.size()); ++i) {
        line += ", or " + report.values[place_in(change.rivals[i])].name;
    }
    if (change.rivals.size() > most) {
        line += ", or one of " + std::to_string(change.rivals.size() - most) + " more";
    }
    return line + ", p " + chance_text(change.p);
}

std::string outlier_line(const LotReport& report, const LotOutlier& outlier) {
    std::string line = report.serials[place_in(outlier.board)] + " does not belong: ";
    if (outlier.reading) {
        const LotName& name = report.numbers[place_in(*outlier.reading)];
        return line + name.name + " alone: measure again (it is " + signed_text(name, outlier.by) +
               " from what its other readings say)";
    }
    if (!outlier.value) {
        return line + "nothing explains it";
    }
    const LotName& name = report.values[place_in(*outlier.value)];
    return line + "most likely " + name.name + " off by " + signed_text(name, outlier.by);
}

/// Many outliers in one sentence: line by line they would hide what the lot says.
std::string outliers_line(const LotReport& report) {
    const std::vector<LotOutlier>& outliers = report.findings.outliers;
    std::string line = std::to_string(outliers.size()) + " of " +
                       std::to_string(report.serials.size()) +
                       " boards do not belong, each is below";
    std::vector<std::string> counts;
    std::size_t told = 0;
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        const auto count = static_cast<std::size_t>(std::ranges::count_if(
            outliers, [&](const LotOutlier& one) { return one.reading == static_cast<Index>(k); }));
        told += count;
        if (count > 0) {
            counts.push_back(std::to_string(count) + " by " + report.numbers[k].name);
        }
    }
    line += counts.empty() ? "" : "; measure again " + joined(counts);
    return line + (told > 0 && told < outliers.size()
                       ? "; " + std::to_string(outliers.size() - told) + " by a value or by nothing"
                       : "");
}

std::string mean_line(const LotReport& report) {
    const LotMoved& moved = report.findings.moved;
    std::string line = "the mean is not as predicted, p " + chance_text(moved.p) + ": ";
    const auto best = [&] {
        return joined(moved.explanations.front().shifts, " and ",
                      [&](const ValueShift& shift) { return shift_words(report, shift); });
    };
    if (moved.degrees == 1) {
        return line + "one number alone does not tell which value moved";
    }
    if (!moved.explained) {
        line += "no set of up to three values explains it";
        return moved.explanations.empty() ? line : line + "; nearest: " + best();
    }
    line += best() + " explains it";
    if (moved.explanations.size() > 1) {
        line += ", and so do " + std::to_string(moved.explanations.size() - 1) +
                (moved.explanations.size() == 20 ? " or more others" : " others");
    }
    return line;
}

std::string factor_line(const LotReport& report, const GroupFactor& factor) {
    return report.groups[factor.group] +
           (factor.factor > 1 ? " scatters more than declared: "
                              : " scatters less than declared: ") +
           significant(std::sqrt(factor.factor), 2) + " times its standard deviation (" +
           significant(std::sqrt(factor.low), 2) + " to " +
           (factor.high ? significant(std::sqrt(*factor.high), 2) : "any") + "), p " +
           chance_text(factor.holm);
}

void add_outside(const LotReport& report, std::vector<std::string>& lines) {
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        const LotNumber& number = report.findings.numbers[k];
        const auto add = [&](const std::optional<Capability>& one, const char* when) {
            if (one && one->outside > report.most_outside) {
                lines.push_back(report.numbers[k].name + ": " + share_text(one->outside) +
                                " of boards outside the limits (" + share_text(one->low) + " to " +
                                share_text(one->high) + ")" + when);
            }
        };
        add(number.built,
            report.findings.about == LotBoards::before_change ? " before the change" : "");
        add(number.late, " in the last fifth of the lot");
    }
}

} // namespace

std::string share_text(double share) {
    const double percent = 100 * share;
    return (percent >= 10     ? fixed(percent, 0)
            : percent < 0.001 ? "0"
                              : significant(percent, 2)) +
           " %";
}

std::string chance_text(double p) {
    return p < 1e-4 ? "below 0.0001" : significant(p, p < 0.1 ? 1 : 2);
}

std::vector<std::string> lot_lines(const LotReport& report) {
    const LotFindings& found = report.findings;
    constexpr std::size_t few = 6;
    std::vector<std::string> lines;
    if (found.outliers.size() > few) {
        lines.push_back(outliers_line(report));
    } else {
        lines = each_of(found.outliers,
                        [&](const LotOutlier& outlier) { return outlier_line(report, outlier); });
    }
    if (found.changed) {
        lines.push_back(change_line(report));
    }
    if (found.moved.p < lot_level) {
        lines.push_back(mean_line(report));
    }
    if (found.spread && found.spread->p < lot_level) {
        lines.push_back("the lot does not scatter as declared, p " + chance_text(found.spread->p));
    }
    for (const GroupFactor& factor : found.factors) {
        if (factor.holm < lot_level) {
            lines.push_back(factor_line(report, factor));
        }
    }
    add_outside(report, lines);
    return lines;
}

std::vector<std::string> lot_notes(const LotReport& report) {
    const LotFindings& found = report.findings;
    std::vector<std::string> notes;
    if (found.wide) {
        notes.push_back("outliers, change and mean allow for " + report.groups[found.wide->group] +
                        " scattering by " + significant(std::sqrt(found.wide->factor), 2) +
                        " times its standard deviation about the running median");
    }
    for (std::size_t c = 0; c < report.texts.size(); ++c) {
        if (found.columns[c].degrees > 0 && found.columns_holm[c] < lot_level) {
            notes.push_back("boards differ by " + report.texts[c].column + ", p " +
                            chance_text(found.columns_holm[c]));
        }
    }
    if (found.changed) {
        notes.push_back(
            found.about == LotBoards::all
                ? "too few boards before the change and after it: the tables cover all boards"
                : "the tables cover the " + std::to_string(found.used.size()) + " boards " +
                      (found.about == LotBoards::before_change
                           ? "before the change"
                           : "after the change, as there are too few before it"));
    }
    if (!found.spread) {
        notes.emplace_back(
            "spread as a whole not tested: fewer than three complete boards per number");
    }
    for (std::size_t k = 0; k < report.numbers.size(); ++k) {
        const auto& built = found.numbers[k].built;
        if (built && built->rig_too_coarse) {
            notes.push_back("the rig is too coarse for " + report.numbers[k].name +
                            ": most of the scatter of its readings is noise");
        }
    }
    return notes;
}

} // namespace vrid
