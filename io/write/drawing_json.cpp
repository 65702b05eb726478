#include "io/write/drawing_json.hpp"

namespace vrid {
namespace {

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
    return written(drawing_of(board)).dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace vrid
