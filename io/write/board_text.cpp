#include "io/write/board_text.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"
#include "io/write/table.hpp"

namespace vrid {
namespace {

using TextRow = std::vector<std::string>;

std::string bench(double value, Unit unit, int decimals) {
    return fixed(to_bench({value, 0, unit}).value, decimals);
}

std::string mm(double metres, int decimals = 1) {
    return bench(metres, Unit::length, decimals);
}

/// So many, or as many more as give a small piece four digits.
int decimals_for(double value, int decimals) {
    const double place = value > 0 ? std::floor(std::log10(value)) : 0;
    return std::max(decimals, 3 - static_cast<int>(place));
}

/// Small lengths in mm: 0.5, 0.00048.
std::string few_digits(double metres) {
    return significant(to_bench({metres, 0, Unit::length}).value, 2);
}

/// Angles as people write them: 45, -30, 22.5.
std::string degrees(double angle) {
    const std::string text = bench(angle, Unit::angle, 1);
    return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

std::string radius_text(double radius) {
    return std::isinf(radius) ? "straight" : fixed(radius, 2);
}

std::string outline_text(const OutlineFigures& outline) {
    const std::string half = mm(outline.running_length / 2);
    Table table{{left("outline"), right(""), left(""), left("")}};
    const auto add = [&](TextRow row) { table.rows.push_back(std::move(row)); };
    add({"length", mm(outline.length), "mm"});
    add({"running length", mm(outline.running_length), "mm"});
    add({"tail width", mm(outline.tail_width), "mm", "at x = -" + half});
    add({"waist width", mm(outline.waist_width), "mm", "at x = " + mm(outline.waist_x)});
    add({"nose width", mm(outline.nose_width), "mm", "at x = " + half});
    for (const auto& [side, own] : {std::pair("left", outline.edge_contact[0]),
                                    std::pair("right", outline.edge_contact[1])}) {
        if (own) {
            add({std::string("edge contact, ") + side, mm((*own)[1] - (*own)[0]), "mm",
                 "from x = " + mm((*own)[0]) + " to " + mm((*own)[1])});
        }
    }
    const auto [left, right] = outline.sidecut_radius;
    const bool same = std::isinf(left) ? std::isinf(right) : std::abs(left - right) < 1e-6 * left;
    add({same ? "sidecut radius" : "sidecut radius, left", radius_text(left),
         std::isinf(left) ? "" : "m"});
    if (!same) {
        add({"sidecut radius, right", radius_text(right), std::isinf(right) ? "" : "m"});
    }
    add({"area", fixed(outline.area, decimals_for(outline.area, 4)), "m2"});
    if (outline.drawn) {
        const DrawnFit& drawn = *outline.drawn;
        add({"drawn points", std::to_string(drawn.points)});
        add({"largest move", few_digits(drawn.largest_move), "mm",
             drawn.tolerance > 0
                 ? "at x = " + mm(drawn.move_x) + ", of up to " + few_digits(drawn.tolerance)
                 : "not smoothed"});
    }
    return text(table);
}

std::string rest_text(const std::optional<RestFigures>& rest) {
    if (!rest) {
        return "";
    }
    std::string all;
    if (rest->radius.radius > 0) {
        all = "  smallest radius of the rest shape " + mm(rest->radius.radius, 0) +
              " mm at x = " + mm(rest->radius.x) + " mm\n";
    }
    return all + "  on the floor the tail ends " + mm(rest->tail_shorter) + " mm and the nose " +
           mm(rest->nose_shorter) + " mm short of the flat blank\n";
}

std::string mass_text(const MassReport& mass) {
    Table table{{left("mass"), decimal("", "kg"), decimal("share", "%")}};
    const int decimals = decimals_for(mass.mass, 3);
    for (const MassItem& item : mass.by_material) {
        table.rows.push_back(
            {item.name, fixed(item.mass, decimals), fixed(100 * item.mass / mass.mass, 1)});
    }
    const std::string y = mm(mass.y);
    return text(table) + "  whole board " + text(to_bench(mass_quantity(mass))) +
           ", balance point at x = " + mm(mass.x) + (y == "0.0" ? "" : ", y = " + y) + " mm\n";
}

std::string sections_text(const std::vector<StationFigures>& stations) {
    Table table{{left("station"), decimal("x", "mm"), decimal("width", "mm"), decimal("core", "mm"),
                 decimal("total", "mm"), decimal("mass", "kg/m"), decimal("EI", "N m2"),
                 decimal("GJ", "N m2")}};
    for (const StationFigures& station : stations) {
        const CrossSection& s = station.section;
        table.rows.push_back({station.label, mm(s.x), mm(s.width), mm(s.core_thickness, 2),
                              mm(s.thickness, 2),
                              fixed(s.mass_per_length, decimals_for(s.mass_per_length, 3)),
                              significant(s.EI, 4), significant(s.GJ, 4)});
    }
    return text(table);
}

std::string stack_text(const StationFigures& station) {
    Table table{{left("layer, from the top"), left("material"), decimal("angle", "deg"),
                 decimal("thickness", "mm"), left("across the width", "y in mm")}};
    const std::vector<LayerAcross> from_top(station.layers.rbegin(), station.layers.rend());
    for (const LayerAcross& layer : from_top) {
        table.rows.push_back({layer.name, layer.material, degrees(layer.angle),
                              mm(layer.thickness, 3), text_of_width(layer)});
    }
    const std::string x = "x = " + mm(station.section.x) + " mm";
    return (station.label.empty() ? x : station.label + ", " + x) + "\n" + text(table);
}

/// A bound as people write it: 3.5, not 3.500.
std::string bound(const std::optional<double>& value) {
    if (!value) {
        return "";
    }
    constexpr int all = 12;
    return short_number(*value, all);
}

std::string verdict_text(const HeldLimit& held) {
    const LimitVerdict& verdict = held.worst;
    if (!verdict.found) {
        return "not computed";
    }
    const std::string where = conditions_words(held);
    return std::string(verdict.exceeded ? "EXCEEDED" : "within") +
           (where.empty() ? "" : " " + where) +
           (!verdict.unresolved                ? ""
            : std::isinf(verdict.found->error) ? ", no bar known"
                                               : ", by less than the error bar");
}

} // namespace

std::string limits_text(const Verdicts& verdicts) {
    std::vector<HeldLimit> alone;
    for (const LimitVerdict& verdict : verdicts) {
        alone.push_back({verdict});
    }
    return held_limits_text(alone);
}

std::string held_limits_text(const std::vector<HeldLimit>& limits) {
    if (limits.empty()) {
        return "";
    }
    Table table{{left("limit"), decimal("min"), decimal("found"), left(""), decimal("max"),
                 left("unit"), left("")}};
    for (const HeldLimit& held : limits) {
        const LimitVerdict& verdict = held.worst;
        const RoundedNumber number =
            verdict.found ? rounded(*verdict.found, verdict) : RoundedNumber{};
        const bool none = verdict.found && !std::isfinite(verdict.found->value);
        std::string unit = verdict.found ? verdict.found->unit : "";
        if (verdict.name == "sidecut_radius") {
            unit = "m";
        }
        table.rows.push_back({verdict.name, bound(verdict.limit.min),
                              none ? "straight" : number.value,
                              verdict.found && !none ? bar_cell(*verdict.found) : "",
                              bound(verdict.limit.max), unit, verdict_text(held)});
    }
    return text(table);
}

std::string board_text(const BoardFigures& figures, const Verdicts& verdicts) {
    std::string all = figures.name + "\n\n" + outline_text(figures.outline) +
                      rest_text(figures.rest) + "\n" + mass_text(figures.mass) + "\n" +
                      sections_text(figures.stations);
    for (const StationFigures& station : figures.stations) {
        all += "\n" + stack_text(station);
    }
    const std::string limits = limits_text(verdicts);
    const bool missing = std::ranges::any_of(verdicts, [](const auto& one) { return !one.found; });
    return all + (limits.empty() ? "" : "\n" + limits) +
           (missing ? "\n  not computed: judged by vrid solve, edge, strength or batch\n" : "");
}

} // namespace vrid
