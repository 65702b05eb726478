#include "solver/response/thin_core.hpp"

#include <algorithm>

#include "solver/response/station.hpp"

namespace vrid {

namespace {

ThinCore core_at(const Layup<double>& layup, const StackKey& key, const Eigen::Vector2d& at) {
    ThinCore found{at, core_thickness(layup, at), 0, ""};
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        const LayupItem<double>& item = layup.items[i];
        if (key[i] == 0 || !item.layer->inlay) {
            continue;
        }
        found.layer = item.layer->name;
        for (const Lamina<double>& ply : item.plies) {
            found.inlaid += ply.thickness;
        }
    }
    return found;
}

bool has_core(const Layup<double>& layup, const StackKey& key) {
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        if (key[i] != 0 && layup.items[i].is_core) {
            return true;
        }
    }
    return false;
}

} // namespace

std::optional<ThinCore> thin_core(const Board& board) {
    const bool inlay = std::ranges::any_of(board.layers, &Layer::inlay);
    if (!board.core || (!inlay && !board.core->cross)) {
        return std::nullopt;
    }
    constexpr double nothing = 1e-9; // [m]
    const Layup<double> layup = make_layup<double>(board);
    const std::vector<double> breaks = station_breaks(board);
    constexpr double whole = 10; // wider than any board: cut at the kinks only [m]
    constexpr int looks = 4;     // slanted borders move between the stations
    std::optional<ThinCore> worst;
    const auto left_of = [](const ThinCore& one) { return one.thickness - one.inlaid; };
    const auto look = [&](double x) {
        for (const StationPart& part : thickness_slices(layup, x, station_parts(layup, x), whole)) {
            if (!has_core(layup, part.key)) {
                continue;
            }
            for (const double y : {part.y_from, part.y_to}) {
                ThinCore found = core_at(layup, part.key, {x, y});
                if (left_of(found) <= nothing && (!worst || left_of(found) < left_of(*worst))) {
                    worst = std::move(found);
                }
            }
        }
    };
    for (std::size_t i = 1; i < breaks.size(); ++i) {
        const double length = breaks[i] - breaks[i - 1];
        constexpr double beside = 1e-6; // of the stretch: its ends belong to it
        look(breaks[i - 1] + beside * length);
        for (int k = 0; k < looks; ++k) {
            look(breaks[i - 1] + length * (k + 0.5) / looks);
        }
        look(breaks[i] - beside * length);
    }
    return worst;
}

} // namespace vrid
