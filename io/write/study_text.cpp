#include "io/write/study_text.hpp"

#include <algorithm>

#include "io/write/board_text.hpp"
#include "io/write/number.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

std::string numbers_text(const SolvedBoard& solved) {
    Table table{{left("case"), decimal("stiffness"), left("error bar"), left("unit")}};
    const auto is_stiffness = [](const NamedQuantity& number) {
        return number.name == "stiffness";
    };
    const auto& cases = solved.study.cases;
    const bool only_stiffness = std::ranges::all_of(cases, [&](const CaseResult& one) {
        return std::ranges::all_of(one.numbers, is_stiffness);
    });
    table.columns[1].title = only_stiffness ? "stiffness" : "value";
    const auto add = [&](const std::string& name, const Quantity& quantity) {
        const BenchQuantity bench = to_bench(quantity);
        table.rows.push_back(
            {name, rounded(bench.value, bench.error).value, bar_cell(bench), bench.unit});
    };
    for (const CaseResult& result : cases) {
        for (const NamedQuantity& number : result.numbers) {
            add(number_name(result, number), number.quantity);
        }
        for (const NamedQuantity& number : mould_numbers(solved.board, result)) {
            add(number.name, number.quantity);
        }
    }
    return table.rows.empty() ? "" : text(table);
}

std::string skipped_text(const StudyResult& study) {
    Table table{{left("skipped"), left("why")}};
    for (const auto& [name, why] : skipped_of(study)) {
        table.rows.push_back({name, why});
    }
    return table.rows.empty() ? "" : "\n" + text(table);
}

/// Nothing where every bar is known.
std::string missing_bars_text(const StudyResult& study) {
    if (study.numbering.degree < 2) {
        return "\n  no error bars: they come from the degree below, and there is none below degree "
               "1;\n  use --degree 2 or more\n";
    }
    return "";
}

/// Where the limits are judged that no solve computes numbers for.
std::string judged_elsewhere(const Verdicts& verdicts) {
    const auto any = [&](auto test) {
        return std::ranges::any_of(verdicts, [&](const LimitVerdict& verdict) {
            return !verdict.found && test(verdict.name);
        });
    };
    const bool edge = any(is_edge_limit);
    const bool strength =
        any([](const std::string& name) { return name.starts_with("strength."); });
    return std::string(edge || strength ? "\n" : "") +
           (edge ? "  limits on the edge are judged by vrid edge and vrid batch\n" : "") +
           (strength ? "  limits on strength are judged by vrid strength and vrid batch\n" : "");
}

std::string figures_text(const StudyResult& study) {
    double seconds = 0;
    for (const auto& [phase, spent] : study.seconds) {
        seconds += spent;
    }
    return "\n  " + std::to_string(study.mesh.quads.size()) + " elements of degree " +
           std::to_string(study.numbering.degree) + ", " + std::to_string(study.unknowns) +
           " unknowns, " + significant(seconds, 2) + " s\n";
}

} // namespace

const char* const cooled_caution =
    "A change against the mould, + camber grows, + hollow base, + left edge higher at the nose. "
    "The bars are those of the computation. Expansions, the stress-free temperature and the base's "
    "modulus are known to 30 % and worse: until you have measured one board and calibrated, so are "
    "these numbers. A mould is expensive: press one board, measure it, calibrate, then cut the "
    "mould line.";

namespace {

constexpr double worth_saying = 0.05; // share of a curvature that is wrong
constexpr double void_above = 1;

std::string bench_text(double value, Unit unit) {
    return fixed(value * bench_unit(unit).per_si, 2);
}

std::string by_layer_text(const CaseResult& result) {
    Table table{{left(result.name + " by layer"), decimal("camber", "mm"),
                 decimal("hollow at x = 0", "mm"), decimal("twist", "deg")}};
    for (const ShapePart& part : result.cooled->by_layer) {
        table.rows.push_back({part.layer, bench_text(part.camber, Unit::length),
                              bench_text(part.concavity, Unit::length),
                              bench_text(part.twist, Unit::angle)});
    }
    return text(table);
}

std::string stretch_warning(const std::string& name, const char* what, double share, double x) {
    if (!(share > worth_saying)) {
        return "";
    }
    const std::string station = fixed(x * bench_unit(Unit::length).per_si, 0);
    if (share > void_above) {
        return name + ": the " + what + " is not valid at x = " + station +
               " mm: the board bends so far both ways that it must stretch, and may snap to "
               "another "
               "shape (eta = " +
               significant(share, 2) + ")";
    }
    return name + ": the " + what + " is overstated by about " + significant(100 * share, 2) +
           " % at x = " + station +
           " mm, where the board bends both ways and must stretch (eta = " + significant(share, 2) +
           ")";
}

} // namespace

std::vector<std::string> stretch_warnings(const StudyResult& study) {
    std::vector<std::string> warnings;
    for (const CaseResult& result : study.cases) {
        if (!result.cooled) {
            continue;
        }
        const StretchShare& stretch = result.cooled->stretch;
        for (const std::string& warning :
             {stretch_warning(result.name, "hollow", stretch.across, stretch.across_station),
              stretch_warning(result.name, "camber", stretch.along, stretch.along_station)}) {
            if (!warning.empty()) {
                warnings.push_back(warning);
            }
        }
    }
    return warnings;
}

std::string cooled_text(const SolvedBoard& solved) {
    std::string all;
    for (const CaseResult& result : solved.study.cases) {
        if (result.cooled) {
            all += "\n" + by_layer_text(result);
        }
    }
    if (all.empty()) {
        return "";
    }
    constexpr std::size_t width = 78;
    for (const std::string& warning : stretch_warnings(solved.study)) {
        all += "\n" + wrapped(warning, width, 2);
    }
    return all + "\n" + wrapped(cooled_caution, width, 2);
}

std::string study_text(const SolvedBoard& solved) {
    const Verdicts verdicts = verdicts_of(solved);
    const std::string limits = limits_text(verdicts);
    return solved.board.name + ", " + text(to_bench(mass_quantity(solved.mass))) + "\n\n" +
           numbers_text(solved) + bent_text(solved.study) + cooled_text(solved) +
           skipped_text(solved.study) + (limits.empty() ? "" : "\n" + limits) +
           judged_elsewhere(verdicts) + missing_bars_text(solved.study) +
           figures_text(solved.study);
}

} // namespace vrid
