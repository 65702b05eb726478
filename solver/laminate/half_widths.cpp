#include "solver/laminate/half_widths.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/board/outline_piece.hpp"

namespace vrid {

namespace {

void add_between(double from, double to, HalfStations& stations) {
    constexpr int count = 256;
    for (int k = 0; k < count; ++k) {
        stations.x.push_back(from + (k + 0.5) / count * (to - from));
        stations.length.push_back((to - from) / count);
    }
}

} // namespace

HalfStations half_stations(const Board& board, std::vector<double> ends) {
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
    std::ranges::sort(ends);
    HalfStations stations;
    for (std::size_t k = 0; k + 1 < ends.size(); ++k) {
        if (ends[k + 1] > ends[k]) {
            add_between(ends[k], ends[k + 1], stations);
        }
    }
    return stations;
}

HalfWidths half_widths(const Planform& planform, double side, const std::vector<double>& x) {
    HalfWidths half{std::vector<double>(x.size(), 0), std::vector<OutlinePlace>(x.size(), {-1, 0})};
    const auto pieces = static_cast<int>(planform.outline.size());
    const int chords = std::clamp(4096 / pieces, 4, 64); // the same for a length changed a little
    for (int at_piece = 0; at_piece < pieces; ++at_piece) {
        const OutlinePiece& piece = planform.outline[static_cast<std::size_t>(at_piece)];
        Eigen::Vector2d next = point_at(piece, 0);
        for (int i = 0; i < chords; ++i) {
            Eigen::Vector2d a = next;
            next = point_at(piece, (i + 1.0) / chords);
            Eigen::Vector2d b = next;
            const bool back = a.x() > b.x();
            if (back) {
                std::swap(a, b);
            }
            for (auto at = std::ranges::lower_bound(x, a.x());
                 at != x.end() && *at <= b.x() && a.x() < b.x(); ++at) {
                const double share = (*at - a.x()) / (b.x() - a.x());
                const double width = side * (a.y() + (b.y() - a.y()) * share);
                const auto k = static_cast<std::size_t>(at - x.begin());
                if (width > half.width[k]) {
                    half.width[k] = width;
                    half.place[k] = {at_piece, (i + (back ? 1 - share : share)) / chords};
                }
            }
        }
    }
    return half;
}

Neighbours neighbours(const HalfStations& stations, std::size_t k) {
    const std::size_t before = k > 0 ? k - 1 : k;
    const std::size_t after = std::min(k + 1, stations.x.size() - 1);
    return {before, after, stations.x[after] - stations.x[before]};
}

// The sidewall is as wide as it says normal to the outline.
std::vector<double> less_sidewall(const Board& board, const HalfStations& stations,
                                  const std::vector<double>& outline) {
    std::vector<double> half = outline;
    for (std::size_t k = 0; k < half.size() && board.sidewall; ++k) {
        if (inside(board.sidewall->x, stations.x[k])) {
            const Neighbours next = neighbours(stations, k);
            const double slope = (outline[next.after] - outline[next.before]) / next.way;
            half[k] = std::max(0.0, outline[k] - board.sidewall->width * std::hypot(1, slope));
        }
    }
    return half;
}

} // namespace vrid
