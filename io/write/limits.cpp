#include "io/write/limits.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "io/write/number_name.hpp"
#include "mesh/board/digits_apart.hpp"
#include "solver/response/cross_section.hpp"

namespace vrid {
namespace {

LimitVerdict judge_one(const std::string& name, const Limit& limit, const Quantity& quantity) {
    LimitVerdict verdict{name, limit, Measured{to_bench(quantity)}, false, false};
    const double value = verdict.found->value;
    const double error = verdict.found->error;
    for (const auto& bound : {limit.min, limit.max}) {
        verdict.unresolved = verdict.unresolved || (bound && std::abs(value - *bound) < error);
    }
    verdict.exceeded = (limit.min && value < *limit.min) || (limit.max && value > *limit.max);
    return verdict;
}

// A limited number of the section, where the board has one.
void add_at_station(std::vector<NamedQuantity>& all, const Board& board, const std::string& name) {
    for (const char* const kind : {"EI", "GJ", "thickness"}) {
        const auto x = station_in(name, kind);
        if (!x || width_at(board.planform, *x) <= 0) {
            continue;
        }
        const CrossSection section = cross_section(board, *x);
        if (*kind == 't') {
            all.push_back({name, {section.thickness, 0, Unit::length}});
        } else {
            const double value = *kind == 'E' ? section.EI : section.GJ;
            all.push_back({name, {value, 0, Unit::section_stiffness}});
        }
    }
}

} // namespace

void check_part(LimitVerdict& verdict) {
    if (verdict.found && std::isnan(verdict.found->value)) {
        verdict.found->value = std::numeric_limits<double>::infinity();
    }
}

Verdicts judge(const std::map<std::string, Limit>& limits,
               const std::vector<NamedQuantity>& numbers) {
    Verdicts verdicts;
    for (const auto& [name, limit] : limits) {
        const auto number = std::ranges::find_if(
            numbers, [&name = name](const NamedQuantity& one) { return one.name == name; });
        verdicts.push_back(number == numbers.end()
                               ? LimitVerdict{name, limit, std::nullopt, false, false}
                               : judge_one(name, limit, number->quantity));
    }
    return verdicts;
}

std::vector<NamedQuantity> plain_numbers(const Board& board, const OutlineFigures& outline,
                                         const MassReport& mass) {
    std::vector<NamedQuantity> all{
        {"mass", mass_quantity(mass)},
        {"length", {outline.length, 0, Unit::length}},
        {"area", {outline.area, 0, Unit::area}},
        // in metres, as everybody writes it
        {"sidecut_radius",
         {std::min(outline.sidecut_radius[0], outline.sidecut_radius[1]), 0, Unit::none}},
        {"balance_point.x", {mass.x, 0, Unit::length}},
        {"balance_point.y", {mass.y, 0, Unit::length}}};
    for (const auto& [name, limit] : board.limits) {
        add_at_station(all, board, name);
    }
    return all;
}

bool any_exceeded(const Verdicts& verdicts) {
    return std::ranges::any_of(verdicts, &LimitVerdict::exceeded);
}

RoundedNumber rounded(const BenchQuantity& found, const LimitVerdict& verdict) {
    constexpr int fewest = 4;
    const double value = found.value;
    RoundedNumber shown = rounded(value, found.error);
    const auto& [min, max] = verdict.limit;
    const bool low = min && value < *min;
    if (!std::isfinite(value) || !(low || (max && value > *max))) {
        return shown;
    }
    const double passed = low ? *min : *max;
    const double read = std::stod(shown.value);
    if (low ? read >= passed : read <= passed) {
        shown.value = significant(value, digits_apart(value, passed, fewest));
    }
    return shown;
}

Verdicts exceeded(const Verdicts& verdicts) {
    Verdicts outside = verdicts;
    std::erase_if(outside, std::not_fn(&LimitVerdict::exceeded));
    return outside;
}

} // namespace vrid
