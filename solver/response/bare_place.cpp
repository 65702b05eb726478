#include "solver/response/bare_place.hpp"

#include <algorithm>

#include "mesh/board/zones.hpp"
#include "solver/response/station.hpp"

namespace vrid {

std::optional<Eigen::Vector2d> bare_place(const Board& board) {
    const auto everywhere = [](const Layer& layer) {
        const std::vector<Zone> zones = zones_of(layer);
        return std::ranges::any_of(zones, is_everywhere);
    };
    if (std::ranges::any_of(board.layers, everywhere)) {
        return std::nullopt;
    }
    const Layup<double> layup = make_layup<double>(board);
    const std::vector<double> breaks = station_breaks(board);
    constexpr int looks = 4; // slanted borders move between the stations
    for (std::size_t i = 1; i < breaks.size(); ++i) {
        for (int k = 0; k < looks; ++k) {
            const double x = breaks[i - 1] + (breaks[i] - breaks[i - 1]) * (k + 0.5) / looks;
            for (const StationPart& part : station_parts(layup, x)) {
                const auto items =
                    part.key.begin() + static_cast<std::ptrdiff_t>(layup.items.size());
                if (std::all_of(part.key.begin(), items, [](auto there) { return there == 0; })) {
                    return Eigen::Vector2d(x, (part.y_from + part.y_to) / 2);
                }
            }
        }
    }
    return std::nullopt;
}

} // namespace vrid
