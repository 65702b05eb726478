#include "io/write/drawing_json.hpp"

#include <algorithm>

#include "io/write/json_parts.hpp"
#include "io/write/layup_json.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/board/zones.hpp"
#include "solver/laminate/stack.hpp"
#include "solver/response/station.hpp"

namespace vrid {
namespace {

constexpr double sag = 5e-5; // of the outline's chords: invisible in a drawing [m]
constexpr int drawing_digits = 6;

Json point(double x, double y) {
    return {in_mm(x, drawing_digits), in_mm(y, drawing_digits)};
}

Json foot(const Stance& stance, double x) {
    return {in_mm(x - stance.foot_length / 2, drawing_digits),
            in_mm(-stance.foot_width / 2, drawing_digits),
            in_mm(x + stance.foot_length / 2, drawing_digits),
            in_mm(stance.foot_width / 2, drawing_digits)};
}

Json area(const std::string& layer, const std::vector<Eigen::Vector2d>& corners, double sign) {
    Json zone{{"layer", layer}, {"kind", "area"}};
    for (const Eigen::Vector2d& corner : corners) {
        zone["points"].push_back(point(corner.x(), sign * corner.y()));
    }
    return zone;
}

std::vector<Eigen::Vector2d> corners_of(const Zone& zone, const Range& x) {
    if (zone.ribbon) {
        const Ribbon& r = *zone.ribbon;
        const Eigen::Vector2d along = (r.to - r.from).normalized();
        const Eigen::Vector2d half = Eigen::Vector2d(-along.y(), along.x()) * r.width / 2;
        return {r.from - half, r.to - half, r.to + half, r.from + half};
    }
    if (!zone.polygon.empty()) {
        return zone.polygon;
    }
    constexpr double beyond = 5; // an omitted axis means everywhere; drawings are clipped [m]
    const Range y = zone.y.value_or(Range{-beyond, beyond});
    return {{x[0], y[0]}, {x[1], y[0]}, {x[1], y[1]}, {x[0], y[1]}};
}

Json band(const std::string& layer, const Range& distance, const Range& x) {
    return {{"layer", layer},
            {"kind", "band"},
            {"from", in_mm(distance[0], drawing_digits)},
            {"to", in_mm(distance[1], drawing_digits)},
            {"x", {in_mm(x[0], drawing_digits), in_mm(x[1], drawing_digits)}}};
}

Json zone_drawings(const Board& board, const Range& everywhere) {
    Json zones = Json::array();
    if (board.sidewall) {
        zones.push_back(
            band("sidewall", {0, board.sidewall->width}, board.sidewall->x.value_or(everywhere)));
    }
    for (const Layer& layer : board.layers) {
        for (const Zone& zone : zones_of(layer)) {
            const Range x = zone.x.value_or(everywhere);
            if (zone.outline) {
                zones.push_back(band(layer.name, *zone.outline, x));
            } else if (!is_everywhere(zone)) {
                zones.push_back(area(layer.name, corners_of(zone, x), 1));
                if (layer.mirror) {
                    zones.push_back(area(layer.name, corners_of(zone, x), -1));
                }
            }
        }
    }
    if (board.edge) {
        zones.push_back(band("edge", {0, board.edge->width}, board.edge->x.value_or(everywhere)));
    }
    return zones;
}

Json section_of(const Layup<double>& layup, const std::string& label, double x) {
    Json all{{"label", label}, {"x", in_mm(x, drawing_digits)}, {"parts", Json::array()}};
    for (const StationPart& part : station_parts(layup, x)) {
        Json layers = Json::array();
        for (const StackItem& item : stack_at(layup, {x, (part.y_from + part.y_to) / 2})) {
            const double angle = to_bench({item.angle, 0, Unit::angle}).value;
            layers.push_back(
                {{"name", item.name},
                 {"material", item.material},
                 {"angle", round_significant(angle, drawing_digits)},
                 {"z", {in_mm(item.z_bottom, drawing_digits), in_mm(item.z_top, drawing_digits)}}});
        }
        all["parts"].push_back(
            {{"y", {in_mm(part.y_from, drawing_digits), in_mm(part.y_to, drawing_digits)}},
             {"layers", layers}});
    }
    return all;
}

Json sections_of(const Board& board) {
    const Layup<double> layup = make_layup<double>(board);
    const double contact = board.planform.running_length / 2;
    constexpr double near = 0.9; // of the way to a contact line, where a board has no feet
    const bool feet = board.stance.has_value();
    const double rear = feet ? board.stance->rear() : -near * contact;
    const double front = feet ? board.stance->front() : near * contact;
    return {section_of(layup, feet ? "rear foot" : "towards the tail", rear),
            section_of(layup, "between the feet", (rear + front) / 2),
            section_of(layup, feet ? "front foot" : "towards the nose", front)};
}

} // namespace

Json outline_json(const Planform& planform) {
    Json loop = Json::array();
    for (const OutlinePiece& piece : planform.outline) {
        const std::vector<double> t = flat_parameters(piece, sag);
        for (std::size_t i = 0; i + 1 < t.size(); ++i) {
            const Eigen::Vector2d at = point_at(piece, t[i]);
            loop.push_back(point(at.x(), at.y()));
        }
    }
    return loop;
}

std::string drawing_json(const Board& board) {
    const auto [tail, nose] = x_extent(board.planform);
    const double contact = board.planform.running_length / 2;
    Json all;
    all["format"] = 1;
    all["name"] = board.name;
    all["outline"] = outline_json(board.planform);
    all["contact"] = {in_mm(-contact, drawing_digits), in_mm(contact, drawing_digits)};
    for (const auto& [side, own] : {std::pair("left", board.planform.edge_contact[0]),
                                    std::pair("right", board.planform.edge_contact[1])}) {
        if (own) {
            all["edge_contact"][side] = {in_mm((*own)[0], drawing_digits),
                                         in_mm((*own)[1], drawing_digits)};
        }
    }
    all["feet"] = Json::array();
    if (board.stance) {
        all["feet"] = {foot(*board.stance, board.stance->rear()),
                       foot(*board.stance, board.stance->front())};
    }
    all["zones"] = zone_drawings(board, {tail, nose});
    all["sections"] = sections_of(board);
    all["layup"] = layup_json(board);
    return all.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string section_json(const Board& board, const std::string& label, double x) {
    return section_of(make_layup<double>(board), label, x)
        .dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace vrid
