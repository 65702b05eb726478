#include "solver/response/station.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/board_stations.hpp"
#include "mesh/board/same_place.hpp"
#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

constexpr double border_accuracy = 2.5e-10; // of a band's border [m]

// Where the distance from the outline passes a band's between two places on the line at x that lie
// on either side of it: regula falsi with the Illinois halving (Dowell and Jarratt, 1971), since
// the distance may have kinks. `miss` is distance less band at each.
double band_crossing(const OutlineDistance& distance, double x, double band,
                     std::array<double, 2> y, std::array<double, 2> miss) {
    int kept = -1;
    for (int step = 0; step < 60 && std::abs(y[1] - y[0]) > border_accuracy; ++step) {
        const double at = (y[0] * miss[1] - y[1] * miss[0]) / (miss[1] - miss[0]);
        const double here = distance({x, at}) - band;
        if (std::abs(here) < border_accuracy) {
            return at;
        }
        const int side = (here < 0) == (miss[0] < 0) ? 0 : 1;
        y[static_cast<std::size_t>(side)] = at;
        miss[static_cast<std::size_t>(side)] = here;
        if (kept == 1 - side) {
            miss[static_cast<std::size_t>(kept)] /= 2;
        }
        kept = 1 - side;
    }
    return (y[0] + y[1]) / 2;
}

std::array<Eigen::Vector2d, 4> ribbon_corners(const Ribbon& ribbon) {
    const Eigen::Vector2d along = (ribbon.to - ribbon.from).normalized();
    const Eigen::Vector2d half = Eigen::Vector2d(-along.y(), along.x()) * ribbon.width / 2;
    return {ribbon.from - half, ribbon.to - half, ribbon.to + half, ribbon.from + half};
}

void add_zone_breaks(const Zone& zone, double x, std::vector<double>& y) {
    const std::vector<double> sides = polygon_crossings(zone.polygon, x);
    y.insert(y.end(), sides.begin(), sides.end());
    if (zone.y) {
        y.insert(y.end(), zone.y->begin(), zone.y->end());
    }
    if (zone.ribbon) {
        const auto corner = ribbon_corners(*zone.ribbon);
        for (std::size_t i = 0; i < 4; ++i) {
            const Eigen::Vector2d& a = corner[i];
            const Eigen::Vector2d& b = corner[(i + 1) % 4];
            if ((a.x() - x) * (b.x() - x) < 0) {
                y.push_back(a.y() + (x - a.x()) / (b.x() - a.x()) * (b.y() - a.y()));
            }
        }
    }
}

void add_strip_breaks(const Core& core, std::array<double, 2> ends, std::vector<double>& y) {
    const bool alike = core.strips_right.empty();
    if (!core.resolve) {
        y.insert(y.end(), alike ? 0 : 1, 0.0); // where the halves meet
        return;
    }
    const double reach = std::max(std::abs(ends[0]), std::abs(ends[1]));
    for (const double side : {1.0, -1.0}) {
        const std::vector<Strip>& strips = side > 0 || alike ? core.strips : core.strips_right;
        double border = 0;
        for (std::size_t i = 0; border < reach; i = (i + 1) % strips.size()) {
            y.push_back(side * border);
            border += strips[i].width;
        }
    }
}

// Between samples: beside a slanted end the middle of the board need not be the farthest inside.
void add_band_breaks(const OutlineDistance& distance, const Board& board, double x,
                     std::array<double, 2> ends, std::vector<double>& y) {
    constexpr int intervals = 32;
    const std::vector<double> bands = band_distances(board);
    double from = ends[0];
    double near = 0;
    for (int i = 1; i <= intervals; ++i) {
        const double to = ends[0] + (ends[1] - ends[0]) * i / intervals;
        const double far = i < intervals ? distance({x, to}) : 0;
        for (const double band : bands) {
            if ((near < band) != (far < band)) {
                y.push_back(
                    band_crossing(distance, x, band, {from, to}, {near - band, far - band}));
            }
        }
        from = to;
        near = far;
    }
}

// Candidates for a change of stack along one stretch of board, ends included.
std::vector<double> candidates(const Layup<double>& layup, double x, std::array<double, 2> ends) {
    const Board& board = *layup.board;
    std::vector<double> y(ends.begin(), ends.end());
    for (const LayupItem<double>& item : layup.items) {
        const std::size_t before = y.size();
        for (const Zone& zone : item.zones) {
            add_zone_breaks(zone, x, y);
        }
        if (item.mirrored) {
            std::for_each(y.begin() + static_cast<std::ptrdiff_t>(before), y.end(),
                          [](double& value) { value = -value; });
        }
    }
    if (board.core) {
        add_strip_breaks(*board.core, ends, y);
    }
    if (layup.distance) {
        add_band_breaks(*layup.distance, board, x, ends, y);
    }
    std::ranges::sort(y);
    return y;
}

// Borders nearer than a place are one, in their middle; at the ends of the stretch they are those.
// The same from either side, as mirror images want it.
std::vector<double> distinct_borders(const std::vector<double>& sorted,
                                     std::array<double, 2> ends) {
    std::vector<double> borders;
    for (std::size_t i = 0; i < sorted.size();) {
        std::size_t next = i + 1;
        while (next < sorted.size() && sorted[next] - sorted[next - 1] <= same_place) {
            ++next;
        }
        const double low = sorted[i];
        const double high = sorted[next - 1];
        if (low > ends[0] && high < ends[1]) {
            borders.push_back((low + high) / 2);
        }
        i = next;
    }
    borders.insert(borders.begin(), ends[0]);
    borders.push_back(ends[1]);
    return borders;
}

void add_range(const std::optional<Range>& range, std::vector<double>& x) {
    if (range) {
        x.insert(x.end(), range->begin(), range->end());
    }
}

void add_zone_stations(const Zone& zone, std::vector<double>& x) {
    add_range(zone.x, x);
    if (zone.ribbon) {
        for (const Eigen::Vector2d& corner : ribbon_corners(*zone.ribbon)) {
            x.push_back(corner.x());
        }
    }
    for (const Eigen::Vector2d& corner : zone.polygon) {
        x.push_back(corner.x());
    }
}

} // namespace

std::vector<double> band_distances(const Board& board) {
    std::vector<double> bands;
    if (board.edge) {
        bands.push_back(board.edge->width);
        if (board.edge->flange) {
            bands.push_back(board.edge->width + board.edge->flange->width);
        }
    }
    if (board.sidewall) {
        bands.push_back(board.sidewall->width);
    }
    for (const Layer& layer : board.layers) {
        for (const Zone& zone : zones_of(layer)) {
            if (zone.outline) {
                bands.insert(bands.end(), zone.outline->begin(), zone.outline->end());
            }
        }
    }
    return bands;
}

std::vector<StationPart> station_parts(const Layup<double>& layup, double x) {
    std::vector<StationPart> parts;
    const Planform& planform = layup.board->planform;
    const std::vector<OutlinePlace> places = crossings(planform, x);
    for (std::size_t i = 0; i + 1 < places.size(); i += 2) {
        const double right = point_at(planform, places[i]).y();
        const double left = point_at(planform, places[i + 1]).y();
        if (left <= right + same_place) {
            continue; // no part is narrower than a place
        }
        const std::vector<double> y =
            distinct_borders(candidates(layup, x, {right, left}), {right, left});
        double from = right;
        for (std::size_t k = 1; k < y.size(); ++k) {
            const double to = y[k];
            StackKey key = stack_key(layup, {x, (from + to) / 2});
            if (!parts.empty() && parts.back().y_to == from && parts.back().key == key) {
                parts.back().y_to = to;
            } else {
                parts.push_back({from, to, std::move(key)});
            }
            from = to;
        }
    }
    return parts;
}

std::vector<StationPart> thickness_slices(const Layup<double>& layup, double x,
                                          std::vector<StationPart> parts, double size) {
    const auto& core = layup.board->core;
    if (!core || !core->cross) {
        return parts;
    }
    std::vector<StationPart> slices;
    for (const StationPart& part : parts) {
        std::vector<double> y{part.y_from, part.y_to};
        for (const double kink : core->cross->x) {
            if (kink > part.y_from + same_place && kink < part.y_to - same_place) {
                y.push_back(kink);
            }
        }
        std::ranges::sort(y);
        for (std::size_t i = 1; i < y.size(); ++i) {
            const double width = y[i] - y[i - 1];
            const bool level = core_thickness(layup, Eigen::Vector2d(x, y[i])) ==
                               core_thickness(layup, Eigen::Vector2d(x, y[i - 1]));
            const int count = level ? 1 : std::max(1, static_cast<int>(std::ceil(width / size)));
            for (int k = 0; k < count; ++k) {
                slices.push_back(
                    {y[i - 1] + width * k / count, y[i - 1] + width * (k + 1) / count, part.key});
            }
        }
    }
    return slices;
}

std::size_t part_on_axis(const std::vector<StationPart>& parts) {
    const auto aside = [&](std::size_t i) {
        return std::max({parts[i].y_from, -parts[i].y_to, 0.0});
    };
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < parts.size(); ++i) {
        nearest = aside(i) <= aside(nearest) ? i : nearest;
    }
    return nearest;
}

std::vector<double> station_breaks(const Board& board) {
    std::vector<double> x;
    for (std::size_t i = 0; i < board.planform.outline.size(); ++i) {
        x.push_back(point_at(board.planform, {static_cast<int>(i), 0}).x());
    }
    if (board.core) {
        const auto& stations = board.core->thickness.x;
        x.insert(x.end(), stations.begin(), stations.end());
        for (const auto* strips : {&board.core->strips, &board.core->strips_right}) {
            for (const Strip& strip : *strips) {
                add_range(strip.x, x);
            }
        }
    }
    if (board.tip_spacer) {
        add_range(board.tip_spacer->x, x);
    }
    if (board.edge) {
        add_range(board.edge->x, x);
    }
    if (board.sidewall) {
        add_range(board.sidewall->x, x);
    }
    for (const Layer& layer : board.layers) {
        for (const Zone& zone : zones_of(layer)) {
            add_zone_stations(zone, x);
        }
    }
    return board_stations(board.planform, std::move(x));
}

} // namespace vrid
