#include "io/write/drawing.hpp"

#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/board/zones.hpp"
#include "solver/laminate/stack.hpp"
#include "solver/response/station.hpp"

namespace vrid {
namespace {

constexpr double sag = 5e-5; // of the outline's chords: invisible in a drawing [m]
constexpr int picture_digits = 6;

double drawn_mm(double metres) {
    return round_significant(to_bench({metres, 0, Unit::length}).value, picture_digits) + 0.0;
}

std::vector<double> foot(const Stance& stance, double x) {
    return {drawn_mm(x - stance.foot_length / 2), drawn_mm(-stance.foot_width / 2),
            drawn_mm(x + stance.foot_length / 2), drawn_mm(stance.foot_width / 2)};
}

DrawnZone area(const std::string& layer, const std::vector<Eigen::Vector2d>& corners, double sign) {
    DrawnZone zone{layer, "area"};
    for (const Eigen::Vector2d& corner : corners) {
        zone.points.emplace_back(drawn_mm(corner.x()), drawn_mm(sign * corner.y()));
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

DrawnZone band(const std::string& layer, const Range& distance, const Range& x) {
    return {layer,
            "band",
            {},
            drawn_mm(distance[0]),
            drawn_mm(distance[1]),
            std::pair(drawn_mm(x[0]), drawn_mm(x[1]))};
}

std::vector<DrawnZone> drawn_zones(const Board& board, const Range& everywhere) {
    std::vector<DrawnZone> zones;
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

DrawnSection section_of(const Layup<double>& layup, const std::string& label, double x) {
    DrawnSection section{label, drawn_mm(x), {}};
    for (const StationPart& part : station_parts(layup, x)) {
        DrawnPart drawn{{drawn_mm(part.y_from), drawn_mm(part.y_to)}, {}};
        for (const StackItem& item : stack_at(layup, {x, (part.y_from + part.y_to) / 2})) {
            const double angle = to_bench({item.angle, 0, Unit::angle}).value;
            drawn.layers.push_back({item.name,
                                    item.material,
                                    round_significant(angle, picture_digits),
                                    {drawn_mm(item.z_bottom), drawn_mm(item.z_top)}});
        }
        section.parts.push_back(std::move(drawn));
    }
    return section;
}

std::vector<DrawnSection> sections_of(const Board& board) {
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

void must_be_told(double number, const std::string& of) {
    must_hold(std::isfinite(number), "a number of '" + of + "' is not told");
}

// Lists of another length than the pictures go by are damage.
void must_have(std::size_t found, std::size_t wanted, const std::string& file,
               const std::string& pointer) {
    if (found != wanted) {
        throw InputError(file, "is damaged at " + pointer + ": found a list of " +
                                   std::to_string(found) + ", accepted is a list of " +
                                   std::to_string(wanted));
    }
}

} // namespace

std::vector<std::pair<double, double>> drawn_outline(const Planform& planform) {
    std::vector<std::pair<double, double>> loop;
    for (const OutlinePiece& piece : planform.outline) {
        const std::vector<double> t = flat_parameters(piece, sag);
        for (std::size_t i = 0; i + 1 < t.size(); ++i) {
            const Eigen::Vector2d at = point_at(piece, t[i]);
            loop.emplace_back(drawn_mm(at.x()), drawn_mm(at.y()));
        }
    }
    return loop;
}

Drawing drawing_of(const Board& board) {
    const auto [tail, nose] = x_extent(board.planform);
    const double contact = board.planform.running_length / 2;
    Drawing drawing;
    drawing.name = board.name;
    drawing.outline = drawn_outline(board.planform);
    drawing.contact = {drawn_mm(-contact), drawn_mm(contact)};
    const auto [left, right] = edge_contacts(board.planform);
    for (const auto& [side, ends] : {std::pair("left", left), std::pair("right", right)}) {
        const std::vector<double> own{drawn_mm(ends[0]), drawn_mm(ends[1])};
        if (own != drawing.contact) {
            drawing.edge_contact[side] = own;
        }
    }
    if (board.stance) {
        drawing.feet = {foot(*board.stance, board.stance->rear()),
                        foot(*board.stance, board.stance->front())};
    }
    drawing.zones = drawn_zones(board, {tail, nose});
    drawing.sections = sections_of(board);
    drawing.layup = laid_layers(board);
    return drawing;
}

DrawnSection drawn_section(const Board& board, const std::string& label, double x) {
    return section_of(make_layup<double>(board), label, x);
}

void check_part(const DrawnLayer& layer) {
    must_be_told(layer.angle, layer.name);
}

void check_part(const DrawnSection& section) {
    must_be_told(section.x, section.label);
}

void check_part(const DrawnZone& zone) {
    must_hold(!zone.points.empty() || (zone.from && zone.to && zone.x),
              "the zone of '" + zone.layer + "' is neither an area nor a band");
}

void check_part(const LaidPly& ply) {
    must_be_told(ply.angle_deg, ply.of);
    must_hold(ply.gsm || ply.mm, "the ply '" + ply.of + "' has no amount");
}

const std::vector<double>& Drawing::contact_of(const std::string& side) const {
    const auto own = edge_contact.find(side);
    return own == edge_contact.end() ? contact : own->second;
}

Drawing drawing_in(const Json& json, const std::string& file) {
    Drawing drawing;
    fill_from(json, file, [&](const Json& all) { drawing = read_part<Drawing>(all); });
    must_have(drawing.contact.size(), 2, file, "/contact");
    for (const auto& [side, own] : drawing.edge_contact) {
        must_have(own.size(), 2, file, "/edge_contact/" + side);
    }
    for (std::size_t i = 0; i < drawing.feet.size(); ++i) {
        must_have(drawing.feet[i].size(), 4, file, "/feet/" + std::to_string(i));
    }
    return drawing;
}

std::string drawing_json(const Board& board) {
    return json_line(written(drawing_of(board))) + "\n";
}

} // namespace vrid
