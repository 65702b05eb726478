#include "solver/laminate/mix_at_outline.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/laminate/half_widths.hpp"
#include "solver/laminate/strip_mix.hpp"

namespace vrid {

namespace {

// Which strip lies at a distance from the centre line.
std::size_t strip_at(const std::vector<Strip>& strips, double distance) {
    double rest = std::fmod(distance, pattern_width(strips));
    std::size_t i = 0;
    while (i + 1 < strips.size() && rest >= strips[i].width) {
        rest -= strips[i++].width;
    }
    return i;
}

// Across a blunt end the outline stands across the board, and no station has it: short parts of it,
// each with the strips that end there.
// \param half of the core, at the ends
void add_ends(const Board& board, const std::vector<Strip>& strips, double side,
              const StripAreas& areas, const std::array<double, 2>& half,
              std::vector<MixBorder>& border) {
    constexpr int count = 64;
    const std::array<double, 2> tips = x_extent(board.planform);
    for (int piece = 0; piece < static_cast<int>(board.planform.outline.size()); ++piece) {
        for (int k = 0; k < count; ++k) {
            const OutlinePlace place{piece, (k + 0.5) / count};
            const Eigen::Vector2d at = point_at(board.planform, place);
            const Eigen::Vector2d along = tangent_at(board.planform, place);
            const bool spacer = board.tip_spacer && !inside(board.tip_spacer->x, at.x());
            const bool tail = at.x() < tips[0] + same_place;
            const bool tip = tail || at.x() > tips[1] - same_place;
            if (!tip || spacer || std::abs(along.x()) > 1e-9 * std::abs(along.y())) {
                continue;
            }
            const auto within = [&](double t) {
                const double y = side * point_at(board.planform, {piece, t}).y();
                return widths_within(strips, std::clamp(y, 0.0, half[tail ? 0 : 1]));
            };
            const std::vector<double> from = within(k / double(count));
            const std::vector<double> to = within((k + 1) / double(count));
            for (std::size_t i = 0; i < strips.size(); ++i) {
                if (from[i] != to[i]) {
                    border.push_back(
                        {place, stretch_at(areas.mix, at.x()), i, std::abs(to[i] - from[i])});
                }
            }
        }
    }
}

// By the half widths of the outline at the stations; a sidewall's slope is its neighbours'.
void add_sides(const Board& board, const std::vector<Strip>& strips, double side,
               const StripAreas& areas, std::vector<MixBorder>& border) {
    const HalfStations stations = half_stations(board, areas.mix.breaks);
    const HalfWidths outline = half_widths(board.planform, side, stations.x);
    const std::vector<double> half = less_sidewall(board, stations, outline.width);
    for (std::size_t k = 0; k < half.size(); ++k) {
        if (half[k] <= 0) {
            continue;
        }
        const auto add = [&](std::size_t station, double by) {
            const OutlinePlace place = outline.place[station];
            if (place.piece >= 0) {
                const Eigen::Vector2d along = tangent_at(board.planform, place);
                border.push_back({place, stretch_at(areas.mix, stations.x[k]),
                                  strip_at(strips, half[k]),
                                  by * stations.length[k] * along.norm() / std::abs(along.x())});
            }
        };
        add(k, 1);
        if (board.sidewall && inside(board.sidewall->x, stations.x[k])) {
            const Neighbours next = neighbours(stations, k);
            const double slope =
                (outline.width[next.after] - outline.width[next.before]) / next.way;
            const double by = board.sidewall->width * slope / (std::hypot(1, slope) * next.way);
            add(next.after, -by);
            add(next.before, by);
        }
    }
    if (!half.empty()) {
        add_ends(board, strips, side, areas, {half.front(), half.back()}, border);
    }
}

MixAtOutline at_outline(const Board& board, const std::vector<Strip>& strips,
                        const std::vector<double>& sides) {
    const StripAreas areas = strip_areas(board, strips, sides);
    MixAtOutline found{areas.all, {}};
    for (const double side : sides) {
        if (!areas.repeated) {
            add_sides(board, strips, side, areas, found.border);
        }
    }
    return found;
}

} // namespace

std::vector<MixAtOutline> core_mix_at_outline(const Board& board) {
    const Core& core = *board.core;
    if (core.strips_right.empty()) {
        return {at_outline(board, core.strips, {1, -1})};
    }
    return {at_outline(board, core.strips, {1}), at_outline(board, core.strips_right, {-1})};
}

} // namespace vrid
