#include "io/write/board_figures.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "io/write/number.hpp"
#include "mesh/board/board_stations.hpp"
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

// The outline of a coupon jumps to nothing at its very ends: look just inside.
constexpr double inside = same_place;

// From side to side, over the notch of a swallow tail: what a caliper reads.
double width_inside(const Planform& planform, double x) {
    const auto [tail, nose] = x_extent(planform);
    const auto sides = y_extent(planform, std::clamp(x, tail + inside, nose - inside));
    return sides ? (*sides)[1] - (*sides)[0] : 0.0;
}

/// Station of the smallest width between the contact stations: a scan, then golden section.
double narrowest(const Planform& planform) {
    const double half = planform.running_length / 2 - inside;
    constexpr int steps = 64;
    double best = 0;
    double least = width_inside(planform, 0);
    for (int i = 0; i <= steps; ++i) {
        const double x = -half + 2 * half * i / steps;
        const double width = width_inside(planform, x);
        if (width < least - inside * inside) { // equal widths: stay near the middle
            least = width;
            best = x;
        }
    }
    double low = std::max(-half, best - 2 * half / steps);
    double high = std::min(half, best + 2 * half / steps);
    constexpr double golden = 0.6180339887498949;
    while (high - low > inside) {
        const double a = high - golden * (high - low);
        const double b = low + golden * (high - low);
        if (width_inside(planform, a) < width_inside(planform, b)) {
            high = b;
        } else {
            low = a;
        }
    }
    const double refined = (low + high) / 2;
    return width_inside(planform, refined) < least - inside * inside ? refined : best;
}

std::vector<std::pair<std::string, double>> usual_stations(const Board& board, double waist) {
    const double half = board.planform.running_length / 2;
    std::vector<std::pair<std::string, double>> all{
        {"tail contact", -half}, {"waist", waist}, {"nose contact", half}};
    if (std::abs(waist) > half - same_line) { // no waist: the sides bulge, or taper all the way
        all.emplace_back("middle", 0);
    }
    if (board.stance) {
        all.emplace_back("rear foot", board.stance->rear());
        all.emplace_back("front foot", board.stance->front());
    }
    std::ranges::stable_sort(all, [](const auto& a, const auto& b) { return a.second < b.second; });
    const auto [tail, nose] = x_extent(board.planform);
    for (auto& [label, x] : all) {
        x = std::clamp(x, tail + inside, nose - inside);
    }
    return all;
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

OutlineFigures outline_figures(const Board& board) {
    const Planform& planform = board.planform;
    const auto [tail, nose] = x_extent(planform);
    OutlineFigures figures;
    figures.length = nose - tail;
    figures.running_length = planform.running_length;
    figures.tail_width = width_inside(planform, -planform.running_length / 2);
    figures.nose_width = width_inside(planform, planform.running_length / 2);
    figures.waist_x = narrowest(planform);
    figures.waist_width = width_inside(planform, figures.waist_x);
    figures.edge_contact = planform.edge_contact;
    figures.sidecut_radius = sidecut_radius(planform);
    figures.area = area(planform);
    return figures;
}

BoardFigures board_figures(const Board& board, const std::vector<double>& at) {
    BoardFigures figures{board.name, board.hash, outline_figures(board), board_mass(board), {}};
    std::vector<std::pair<std::string, double>> stations;
    stations.reserve(at.size());
    for (const double x : at) {
        stations.emplace_back("", x);
    }
    if (at.empty()) {
        stations = usual_stations(board, figures.outline.waist_x);
    }
    const Layup<double> layup = make_layup<double>(board);
    for (const auto& [label, x] : stations) {
        figures.stations.push_back({label, cross_section(layup, x), layers_across(layup, x)});
    }
    if (const auto rest = rest_shape(board)) {
        const auto [tail, nose] = x_extent(board.planform);
        RestFigures shape;
        shape.radius = tightest(*rest, tail, nose);
        shape.tail_place = rest->place(tail);
        shape.nose_place = rest->place(nose);
        shape.tail_shorter = shape.tail_place - tail;
        shape.nose_shorter = nose - shape.nose_place;
        figures.rest = shape;
    }
    return figures;
}

} // namespace vrid
