#include "io/write/layers_across.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/number.hpp"
#include "mesh/board/board_stations.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/laminate/stack.hpp"
#include "solver/response/station.hpp"

namespace vrid {
namespace {

constexpr double same_thickness = 1e-8; // [m]
constexpr double same_angle = 1e-9;     // [rad]

/// The copy of a layer on the other side goes under the layer's own name; its angle tells it apart.
std::string name_of(const StackItem& item) {
    const std::string copy = " (mirror)";
    const bool is_copy = item.name.ends_with(copy);
    return is_copy ? item.name.substr(0, item.name.size() - copy.size()) : item.name;
}

bool is_same(const LayerAcross& layer, const StackItem& item) {
    return layer.name == name_of(item) && layer.material == item.material &&
           std::abs(layer.angle - item.angle) < same_angle &&
           std::abs(layer.thickness - (item.z_top - item.z_bottom)) < same_thickness;
}

/// Merges the stack found over one part of the width into the list, keeping the order upwards.
void merge(std::vector<LayerAcross>& layers, const std::vector<StackItem>& stack, Range part) {
    std::size_t next = 0;
    for (const StackItem& item : stack) {
        if (item.z_top - item.z_bottom < same_thickness) {
            continue;
        }
        const auto from = layers.begin() + static_cast<std::ptrdiff_t>(next);
        auto found = std::find_if(from, layers.end(),
                                  [&](const LayerAcross& layer) { return is_same(layer, item); });
        if (found == layers.end()) {
            found = layers.insert(
                from,
                {name_of(item), item.material, item.angle, item.z_top - item.z_bottom, {}, false});
        }
        if (!found->y.empty() && part[0] - found->y.back()[1] < same_place) {
            found->y.back()[1] = part[1];
        } else {
            found->y.push_back(part);
        }
        next = static_cast<std::size_t>(found - layers.begin()) + 1;
    }
}

std::string short_mm(double metres) {
    std::string text = fixed(to_bench({metres, 0, Unit::length}).value, 1);
    return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

} // namespace

std::vector<LayerAcross> layers_across(const Layup<double>& layup, double x) {
    const double at = beside(layup.board->planform, x);
    const std::vector<StationPart> parts = station_parts(layup, at);
    if (parts.empty()) {
        throw InputError("station", "the board has no width at x = " + short_mm(x) + " mm");
    }
    std::vector<LayerAcross> layers;
    for (const StationPart& part : parts) {
        merge(layers, stack_at(layup, {at, (part.y_from + part.y_to) / 2}),
              {part.y_from, part.y_to});
    }
    const Range width{parts.front().y_from, parts.back().y_to};
    for (LayerAcross& layer : layers) {
        layer.everywhere = layer.y.size() == 1 && layer.y[0][0] <= width[0] + same_place &&
                           layer.y[0][1] >= width[1] - same_place;
    }
    return layers;
}

std::string text_of_width(const LayerAcross& layer) {
    if (layer.everywhere) {
        return "all";
    }
    std::string all;
    const std::size_t count = layer.y.size();
    bool symmetric = true;
    for (std::size_t i = 0; i < count; ++i) {
        symmetric =
            symmetric && std::abs(layer.y[i][0] + layer.y[count - 1 - i][1]) < 2 * same_place;
    }
    for (std::size_t i = symmetric ? count / 2 : 0; i < count; ++i) {
        const Range part = layer.y[i];
        all += all.empty() ? "" : ", ";
        if (symmetric && part[0] < 0) {
            all += "|y| < " + short_mm(part[1]);
        } else {
            all += (symmetric ? "|y| " : "") + short_mm(part[0]) + " to " + short_mm(part[1]);
        }
    }
    return all;
}

} // namespace vrid
