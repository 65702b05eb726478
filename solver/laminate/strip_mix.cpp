#include "solver/laminate/strip_mix.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/board/outline_piece.hpp"

namespace vrid {

namespace {

// A pattern that fits so often into the widest half stands for itself: where the last one is cut
// changes from station to station.
constexpr double repeats = 2;

double pattern_width(const std::vector<Strip>& strips) {
    double width = 0;
    for (const Strip& strip : strips) {
        width += strip.width;
    }
    return width;
}

// Stations at which the half width is asked for, rising, and how much of the length each stands
// for.
struct Stations {
    std::vector<double> x, length; ///< [m]
};

// Between two ends a fixed number: they move with the ends, so that sums over them are smooth.
void add_between(double from, double to, Stations& stations) {
    constexpr int count = 256;
    for (int k = 0; k < count; ++k) {
        stations.x.push_back(from + (k + 0.5) / count * (to - from));
        stations.length.push_back((to - from) / count);
    }
}

// Half width to the outline on one side of y = 0, at rising stations [m].
std::vector<double> half_widths(const Planform& planform, double side,
                                const std::vector<double>& x) {
    std::vector<double> half(x.size(), 0);
    const auto pieces = static_cast<int>(planform.outline.size());
    const int chords = std::clamp(4096 / pieces, 4, 64); // the same for a length changed a little
    for (const OutlinePiece& piece : planform.outline) {
        Eigen::Vector2d next = point_at(piece, 0);
        for (int i = 0; i < chords; ++i) {
            Eigen::Vector2d a = next;
            next = point_at(piece, (i + 1.0) / chords);
            Eigen::Vector2d b = next;
            if (a.x() > b.x()) {
                std::swap(a, b);
            }
            for (auto at = std::lower_bound(x.begin(), x.end(), a.x());
                 at != x.end() && *at <= b.x() && a.x() < b.x(); ++at) {
                const double y = a.y() + (b.y() - a.y()) * (*at - a.x()) / (b.x() - a.x());
                double& known = half[static_cast<std::size_t>(at - x.begin())];
                known = std::max(known, side * y);
            }
        }
    }
    return half;
}

// The sidewall is as wide as it says normal to the outline.
void take_sidewall(const Sidewall& wall, const Stations& stations, std::vector<double>& half) {
    const std::vector<double> outline = half;
    for (std::size_t k = 0; k < half.size(); ++k) {
        if (!inside(wall.x, stations.x[k])) {
            continue;
        }
        const std::size_t before = k > 0 ? k - 1 : k;
        const std::size_t after = std::min(k + 1, half.size() - 1);
        const double slope =
            (outline[after] - outline[before]) / (stations.x[after] - stations.x[before]);
        half[k] = std::max(0.0, outline[k] - wall.width * std::hypot(1, slope));
    }
}

// The stations at which strips begin or end.
std::vector<double> strip_ends(const std::vector<Strip>& strips) {
    std::vector<double> ends;
    for (const Strip& strip : strips) {
        if (strip.x) {
            ends.insert(ends.end(), strip.x->begin(), strip.x->end());
        }
    }
    std::sort(ends.begin(), ends.end());
    ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
    return ends;
}

// Stations between the tips, or the tip spacers, nowhere across the end of a strip or sidewall.
Stations core_stations(const Board& board, std::vector<double> ends) {
    const std::array<double, 2> tips = x_extent(board.planform);
    double tail = tips[0];
    double nose = tips[1];
    if (board.tip_spacer) {
        tail = std::max(tail, board.tip_spacer->x[0]);
        nose = std::min(nose, board.tip_spacer->x[1]);
    }
    if (board.sidewall && board.sidewall->x) {
        ends.insert(ends.end(), board.sidewall->x->begin(), board.sidewall->x->end());
    }
    ends.push_back(tail);
    ends.push_back(nose);
    std::erase_if(ends, [&](double x) { return x < tail || x > nose; });
    std::sort(ends.begin(), ends.end());
    Stations stations;
    for (std::size_t k = 0; k + 1 < ends.size(); ++k) {
        if (ends[k + 1] > ends[k]) {
            add_between(ends[k], ends[k + 1], stations);
        }
    }
    return stations;
}

// Adds the areas of one side's strips to the shares, and all of them to a stretch's; returns the
// largest half width.
double add_areas(const Board& board, const std::vector<Strip>& strips, double side, StripMix& mix,
                 std::vector<double>& area) {
    const Stations stations = core_stations(board, mix.breaks);
    std::vector<double> half = half_widths(board.planform, side, stations.x);
    if (board.sidewall) {
        take_sidewall(*board.sidewall, stations, half);
    }
    for (std::size_t k = 0; k < half.size(); ++k) {
        const auto after = std::upper_bound(mix.breaks.begin(), mix.breaks.end(), stations.x[k]);
        const auto stretch = static_cast<std::size_t>(after - mix.breaks.begin());
        const std::vector<double> widths = widths_within(strips, half[k]);
        for (std::size_t i = 0; i < strips.size(); ++i) {
            mix.share[stretch][i] += widths[i] * stations.length[k];
        }
        area[stretch] += half[k] * stations.length[k];
    }
    return half.empty() ? 0 : *std::max_element(half.begin(), half.end());
}

StripMix strip_mix(const Board& board, const std::vector<Strip>& strips,
                   const std::vector<double>& sides) {
    StripMix mix;
    mix.breaks = strip_ends(strips);
    mix.share.assign(mix.breaks.size() + 1, std::vector<double>(strips.size(), 0));
    std::vector<double> area(mix.share.size(), 0);
    double widest = 0;
    for (const double side : sides) {
        widest = std::max(widest, add_areas(board, strips, side, mix, area));
    }
    const double pattern = pattern_width(strips);
    const bool repeated = widest >= repeats * pattern;
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
