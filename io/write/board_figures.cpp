#include "io/write/board_figures.hpp"

#include <algorithm>
#include <utility>

#include "mesh/board/same_place.hpp"

namespace vrid {
namespace {

constexpr double mass_relative_error = 1e-4; // promised by board_mass
// The outline of a coupon jumps to nothing at its very ends: look just inside.
constexpr double inside = same_place;

double width_inside(const Planform& planform, double x) {
    const auto [tail, nose] = x_extent(planform);
    return width_at(planform, std::clamp(x, tail + inside, nose - inside));
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

Quantity mass_quantity(const MassReport& report) {
    return {report.mass, report.mass * mass_relative_error, Unit::mass};
}

} // namespace vrid
