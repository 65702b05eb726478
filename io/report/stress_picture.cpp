#include <algorithm>
#include <array>
#include <cmath>

#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/strength_pictures.hpp"
#include "io/report/svg.hpp"

namespace vrid {

namespace {

constexpr std::array<const char*, 5> components{"1", "2", "12", "13", "23"};
constexpr std::array<const char*, 5> titles{"along, 1", "across, 2", "shear 12", "shear 13",
                                            "shear 23"};
constexpr double plies_right = 186, stress_panel = 160, stress_head = 38; // [px]
constexpr double least_height = 21, shared_height = 150; // of a ply, of all by thickness [px]

// The part of a ply that is nearest to its strength: strips of a core differ.
const StressedPart& shown_part(const StressedPly& ply) {
    const auto use = [](const StressedPart& part) {
        double largest = part.strengths_MPa ? 0 : -1;
        for (const char* component : components) {
            largest = std::max(largest, strength_use(part, component).share);
        }
        return largest;
    };
    return *std::ranges::max_element(
        ply.parts, [&](const StressedPart& a, const StressedPart& b) { return use(a) < use(b); });
}

// Heights of plies are their thickness and a little more, so that thin ones can be read.
std::vector<double> ply_borders(const std::vector<StressedPly>& plies) { // downwards from the top
    const double whole = plies.back().z_mm.second - plies.front().z_mm.first;
    std::vector<double> borders{stress_head};
    for (std::size_t i = plies.size(); i-- > 0;) {
        borders.push_back(borders.back() + least_height +
                          shared_height * (plies[i].z_mm.second - plies[i].z_mm.first) / whole);
    }
    return borders;
}

// Even to both sides; strengths far beyond all stress are cut.
double reach_of(const std::vector<StressedPly>& plies, const char* component) {
    constexpr double beyond = 1.15;
    double stress = 1e-6;
    double strength = 0;
    for (const StressedPly& ply : plies) {
        const StressedPart& part = shown_part(ply);
        for (const double value : part.stress_MPa.at(component)) {
            stress = std::max(stress, std::abs(value));
        }
        if (const auto bears = borne(part, component)) {
            strength = std::max({strength, bears->at(0), bears->at(1)});
        }
    }
    return 1.06 * std::max(stress, std::min(strength, beyond * stress));
}

void draw_ply(Svg& svg, const StressedPart& part, const char* component, const Axis& x, double top,
              double bottom) {
    if (const auto bears = borne(part, component)) {
        const double from = std::max(-bears->at(0), x.low);
        const double to = std::min(bears->at(1), x.high);
        svg.rectangle(x.at(from), top + 1, x.at(to) - x.at(from), bottom - top - 2, "bears",
                      part.material + " bears " + short_text(-bears->at(0)) + " to " +
                          short_text(bears->at(1)) + " MPa");
        for (const auto& [end, inside] :
             {std::pair(from, from > x.low), std::pair(to, to < x.high)}) {
            if (inside) {
                svg.line(x.at(end), top + 1, x.at(end), bottom - 1, "limit");
            }
        }
    }
    const std::vector<double>& values = part.stress_MPa.at(component);
    Points line;
    constexpr int steps = 8;
    for (int i = 0; i <= steps; ++i) {
        const double t = double(i) / steps;
        const double value = values.size() == 2
                                 ? values[0] + t * (values[1] - values[0])
                                 : values[0] * (1 - t) * (1 - 2 * t) + values[1] * 4 * t * (1 - t) +
                                       values[2] * t * (2 * t - 1);
        line.emplace_back(x.at(value), bottom + t * (top - bottom));
    }
    svg.polyline(line, "curve C0");
}

void draw_panel(Svg& svg, const std::vector<StressedPly>& plies, std::size_t which,
                const std::vector<double>& borders) {
    const char* component = components.at(which);
    const double from = plies_right + 8 + static_cast<double>(which) * stress_panel;
    const double reach = reach_of(plies, component);
    const Axis x{-reach, reach, from + 4, from + stress_panel - 40};
    const double bottom = borders.back();
    svg.text((x.from + x.to) / 2, 14, titles.at(which), "middle", "head");
    svg.line(x.at(0), stress_head, x.at(0), bottom, "zero");
    for (std::size_t i = 0; i < plies.size(); ++i) {
        const StressedPart& part = shown_part(plies[plies.size() - 1 - i]);
        draw_ply(svg, part, component, x, borders[i], borders[i + 1]);
        const StrengthUse use = strength_use(part, component);
        svg.text(x.to + 4, (borders[i] + borders[i + 1]) / 2 + 4,
                 use.strength > 0 ? fixed(100 * use.share, 0) + " %" : "", "start", "tick");
    }
    const double step = ticks_step(x.low, x.high, 4);
    for (const double value : ticks(x.low, x.high, 4)) {
        svg.line(x.at(value), bottom, x.at(value), bottom + 4, "zero");
        svg.text(x.at(value), bottom + 16, tick_text(value, step), "middle", "tick");
    }
}

std::string ply_name(const StressedPly& ply) {
    return ply.layer + (ply.parts.size() > 1 ? " " + shown_part(ply).material : "") + ", " +
           short_text(ply.ply_deg) + "\u00b0";
}

bool gives(const StressedPly& ply, const FoundPlace& first) {
    const bool strip = ply.parts.size() > 1 && first.layer.starts_with(ply.layer);
    return (ply.layer == first.layer || strip) && ply.ply == first.ply;
}

DataTable stress_table(const FoundCaseStrength& one) {
    DataTable table{"stress where " + one.name + " gives first", {"ply, from above", "z, mm"}, {}};
    for (const char* component : components) {
        table.columns.push_back(
            std::string("stress ") + component +
            (std::string(component).back() == '3' ? ", largest, MPa" : ", bottom; top, MPa"));
        table.columns.push_back("of its strength");
    }
    for (auto ply = one.through->rbegin(); ply != one.through->rend(); ++ply) {
        const StressedPart& part = shown_part(*ply);
        std::vector<std::string> row{ply_name(*ply) + ", ply " + std::to_string(ply->ply),
                                     fixed(ply->z_mm.first, 2) + " to " +
                                         fixed(ply->z_mm.second, 2)};
        for (const char* component : components) {
            const std::vector<double>& values = part.stress_MPa.at(component);
            const StrengthUse use = strength_use(part, component);
            row.push_back(values.size() == 2
                              ? significant(values[0], 3) + "; " + significant(values[1], 3)
                              : significant(use.stress, 3));
            row.push_back(use.strength > 0
                              ? fixed(100 * use.share, 0) + " % of " + significant(use.strength, 3)
                              : "not judged");
        }
        table.rows.push_back(row);
    }
    return table;
}

} // namespace

std::optional<std::array<double, 2>> borne(const StressedPart& part, const std::string& component) {
    const auto at = [&](const char* key) { return part.strength(key); };
    const bool isotropic = part.strengths_MPa && at("Yt") == 0;
    std::array<double, 2> bears{};
    if (component == "1" || (component == "2" && isotropic)) {
        bears = {at("Xc"), at("Xt")};
    } else if (component == "2") {
        bears = {at("Yc"), at("Yt")};
    } else if (component == "12") { // of an isotropic material von Mises's
        const double shear = isotropic ? std::min(at("Xt"), at("Xc")) / std::sqrt(3.0) : at("S12");
        bears = {shear, shear};
    } else {
        const double shear = at(component == "13" ? "S13" : "S23");
        bears = {shear, shear};
    }
    return bears[0] > 0 && bears[1] > 0 ? std::optional(bears) : std::nullopt;
}

StrengthUse strength_use(const StressedPart& part, const std::string& component) {
    const auto bears = borne(part, component);
    StrengthUse use;
    for (const double value : part.stress_MPa.at(component)) {
        const double strength = bears ? bears->at(value >= 0 ? 1 : 0) : 0;
        const double share = bears ? std::abs(value) / strength : 0;
        const bool larger = bears ? share >= use.share : std::abs(value) >= std::abs(use.stress);
        if (larger) {
            use = {share, value, strength};
        }
    }
    return use;
}

std::string stress_picture(const FoundCaseStrength& one, const std::string& id) {
    if (!one.through || one.through->empty()) {
        return "";
    }
    const std::vector<StressedPly>& plies = *one.through;
    const std::vector<double> borders = ply_borders(plies);
    Svg svg(picture_width, borders.back() + 40);
    std::string said;
    for (std::size_t i = 0; i < plies.size(); ++i) {
        const StressedPly& ply = plies[plies.size() - 1 - i];
        const double middle = (borders[i] + borders[i + 1]) / 2;
        if (gives(ply, *one.first)) {
            svg.rectangle(0, borders[i], picture_width, borders[i + 1] - borders[i], "beyond",
                          "gives first");
        }
        svg.text(plies_right, middle + 4, clipped(ply_name(ply), 30), "end",
                 gives(ply, *one.first) ? "value" : "");
        svg.line(plies_right + 8, borders[i], picture_width, borders[i], "grid");
        said += (said.empty() ? "" : ", ") + ply_name(ply);
    }
    for (std::size_t which = 0; which < components.size(); ++which) {
        draw_panel(svg, plies, which, borders);
    }
    svg.text(plies_right, 14, "the ply that gives is shaded", "end", "note");
    svg.text(picture_width - 4, borders.back() + 34,
             "MPa in the axes of each ply; bars: what it bears; percent: of its strength; heights "
             "of plies not to scale",
             "end", "note");
    return svg.markup(id, one.name + ": stress through the thickness where it gives first",
                      "Five panels: stress along, across, and in shear 12, 13 and 23, by ply from "
                      "above: " +
                          said + ". Each beside what the ply bears. Values are in the table.") +
           folded(stress_table(one));
}

} // namespace vrid
