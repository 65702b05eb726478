#include "solver/laminate/strip_mix.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/lists.hpp"
#include "solver/laminate/half_widths.hpp"

namespace vrid {

namespace {

// A pattern that fits so often into the widest half stands for itself: where the last one is cut
// changes from station to station.
constexpr double repeats = 2;

// The stations at which strips begin or end.
std::vector<double> strip_ends(const std::vector<Strip>& strips) {
    std::vector<double> ends;
    for (const Strip& strip : strips) {
        if (strip.x) {
            ends.insert(ends.end(), strip.x->begin(), strip.x->end());
        }
    }
    sort_distinct(ends);
    return ends;
}

// Adds the areas of one side's strips to the shares, and all of them to a stretch's; returns the
// largest half width.
double add_areas(const Board& board, const std::vector<Strip>& strips, double side, StripMix& mix,
                 std::vector<double>& area) {
    const HalfStations stations = half_stations(board, mix.breaks);
    const std::vector<double> half =
        less_sidewall(board, stations, half_widths(board.planform, side, stations.x).width);
    for (std::size_t k = 0; k < half.size(); ++k) {
        const std::size_t stretch = stretch_at(mix, stations.x[k]);
        const std::vector<double> widths = widths_within(strips, half[k]);
        for (std::size_t i = 0; i < strips.size(); ++i) {
            mix.share[stretch][i] += widths[i] * stations.length[k];
        }
        area[stretch] += half[k] * stations.length[k];
    }
    return half.empty() ? 0 : *std::ranges::max_element(half);
}

StripMix strip_mix(const Board& board, const std::vector<Strip>& strips,
                   const std::vector<double>& sides) {
    const auto [areas, area, repeated] = strip_areas(board, strips, sides);
    const double pattern = pattern_width(strips);
    StripMix mix = areas;
    for (std::size_t stretch = 0; stretch < area.size(); ++stretch) {
        for (std::size_t i = 0; i < strips.size(); ++i) {
            double& share = mix.share[stretch][i]; // of the pattern, too, where there is no core
            share =
                repeated || area[stretch] == 0 ? strips[i].width / pattern : share / area[stretch];
        }
    }
    return mix;
}

} // namespace

std::vector<double> widths_within(const std::vector<Strip>& strips, double half) {
    const double pattern = pattern_width(strips);
    const double times = std::floor(half / pattern);
    double rest = half - times * pattern;
    std::vector<double> widths;
    for (const Strip& strip : strips) {
        const double last = std::clamp(rest, 0.0, strip.width);
        widths.push_back(times * strip.width + last);
        rest -= last;
    }
    return widths;
}

double pattern_width(const std::vector<Strip>& strips) {
    double width = 0;
    for (const Strip& strip : strips) {
        width += strip.width;
    }
    return width;
}

std::size_t stretch_at(const StripMix& mix, double x) {
    return static_cast<std::size_t>(std::ranges::upper_bound(mix.breaks, x) - mix.breaks.begin());
}

StripAreas strip_areas(const Board& board, const std::vector<Strip>& strips,
                       const std::vector<double>& sides) {
    StripAreas areas;
    areas.mix.breaks = strip_ends(strips);
    areas.mix.share.assign(areas.mix.breaks.size() + 1, std::vector<double>(strips.size(), 0));
    areas.all.assign(areas.mix.share.size(), 0);
    double widest = 0;
    for (const double side : sides) {
        widest = std::max(widest, add_areas(board, strips, side, areas.mix, areas.all));
    }
    areas.repeated = widest >= repeats * pattern_width(strips);
    return areas;
}

CoreMix core_mix(const Board& board) {
    const Core& core = *board.core;
    if (core.strips_right.empty() && core.strips.size() == 1 && !core.strips.front().x) {
        return {{{}, {{1}}}, {}};
    }
    if (core.strips_right.empty()) {
        return {strip_mix(board, core.strips, {1, -1}), {}};
    }
    return {strip_mix(board, core.strips, {1}), strip_mix(board, core.strips_right, {-1})};
}

const std::string& strip_material(const std::vector<Strip>& strips, std::size_t i, double x) {
    const Strip& strip = strips[i];
    if (inside(strip.x, x)) {
        return strip.material;
    }
    return strip.fill.empty() ? strips.front().material : strip.fill;
}

} // namespace vrid
