#include "io/write/drawing_json.hpp"

#include "io/write/json_parts.hpp"

namespace vrid {
namespace {

Json json_of(const DrawnZone& zone) {
    if (!zone.points.empty()) {
        return {{"layer", zone.layer}, {"kind", "area"}, {"points", zone.points}};
    }
    return {{"layer", zone.layer},
            {"kind", "band"},
            {"from", zone.from},
            {"to", zone.to},
            {"x", {zone.x_from, zone.x_to}}};
}

DrawnZone zone_in(const Json& json) {
    DrawnZone zone;
    zone.layer = json.at("layer").get<std::string>();
    if (json.at("kind") == "area") {
        zone.points = json.at("points").get<decltype(zone.points)>();
    } else {
        zone.from = json.at("from").get<double>();
        zone.to = json.at("to").get<double>();
        zone.x_from = json.at("x").at(0).get<double>();
        zone.x_to = json.at("x").at(1).get<double>();
    }
    return zone;
}

Json json_of(const DrawnPart& part) {
    Json layers = Json::array();
    for (const DrawnLayer& layer : part.layers) {
        layers.push_back({{"name", layer.name},
                          {"material", layer.material},
                          {"angle", layer.angle},
                          {"z", {layer.bottom, layer.top}}});
    }
    return {{"y", {part.from, part.to}}, {"layers", layers}};
}

DrawnPart part_in(const Json& json) {
    DrawnPart part{json.at("y").at(0).get<double>(), json.at("y").at(1).get<double>(), {}};
    for (const Json& layer : json.at("layers")) {
        part.layers.push_back({layer.at("name").get<std::string>(),
                               layer.at("material").get<std::string>(),
                               layer.at("angle").get<double>(), layer.at("z").at(0).get<double>(),
                               layer.at("z").at(1).get<double>()});
    }
    return part;
}

DrawnSection section_in(const Json& json) {
    DrawnSection section{json.at("label").get<std::string>(), json.at("x").get<double>(), {}};
    for (const Json& part : json.at("parts")) {
        section.parts.push_back(part_in(part));
    }
    return section;
}

Json json_of(const LaidLayer& layer) {
    Json plies = Json::array();
    for (const LaidPly& ply : layer.plies) {
        plies.push_back(
            {{"of", ply.of}, {"angle_deg", ply.angle}, {ply.weighed ? "gsm" : "mm", ply.amount}});
    }
    Json all{{"layer", layer.name},
             {"of", layer.of},
             {"where", layer.where},
             {"thickness_mm", layer.thickness ? Json(*layer.thickness) : Json()},
             {"plies", plies}};
    if (!layer.resin.empty()) {
        all["resin"] = layer.resin;
        all["resin_gsm"] = layer.resin_weight;
    }
    return all;
}

LaidLayer layer_in(const Json& json) {
    LaidLayer layer{json.at("layer").get<std::string>(),
                    json.at("of").get<std::string>(),
                    json.at("where").get<std::string>(),
                    {},
                    {},
                    {},
                    0};
    if (!json.at("thickness_mm").is_null()) {
        layer.thickness = json.at("thickness_mm").get<double>();
    }
    for (const Json& ply : json.at("plies")) {
        const bool weighed = ply.contains("gsm");
        layer.plies.push_back({ply.at("of").get<std::string>(), ply.at("angle_deg").get<double>(),
                               ply.at(weighed ? "gsm" : "mm").get<double>(), weighed});
    }
    if (json.contains("resin")) {
        layer.resin = json.at("resin").get<std::string>();
        layer.resin_weight = json.at("resin_gsm").get<double>();
    }
    return layer;
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

template <class Part> Json list_of(const std::vector<Part>& parts) {
    Json all = Json::array();
    for (const Part& part : parts) {
        all.push_back(json_of(part));
    }
    return all;
}

} // namespace

Json json_of(const DrawnSection& section) {
    return {{"label", section.label}, {"x", section.x}, {"parts", list_of(section.parts)}};
}

Json json_of(const Drawing& drawing) {
    Json all;
    all["format"] = 1;
    all["name"] = drawing.name;
    all["outline"] = drawing.outline;
    all["contact"] = drawing.contact;
    all["feet"] = drawing.feet;
    all["zones"] = list_of(drawing.zones);
    all["sections"] = list_of(drawing.sections);
    all["layup"] = list_of(drawing.layup);
    for (const auto& [side, own] : drawing.edge_contact) {
        if (own != drawing.contact) {
            all["edge_contact"][side] = own;
        }
    }
    return all;
}

Drawing drawing_in(const Json& json, const std::string& file) {
    Drawing drawing;
    drawing.name = json.value("name", "");
    drawing.outline = json.at("outline").get<decltype(drawing.outline)>();
    drawing.contact = json.at("contact").get<std::vector<double>>();
    drawing.feet = json.at("feet").get<decltype(drawing.feet)>();
    must_have(drawing.contact.size(), 2, file, "/contact");
    for (const char* side : {"left", "right"}) {
        const std::string pointer = std::string("/edge_contact/") + side;
        drawing.edge_contact[side] = json.value(Json::json_pointer(pointer), drawing.contact);
        must_have(drawing.edge_contact[side].size(), 2, file, pointer);
    }
    for (std::size_t i = 0; i < drawing.feet.size(); ++i) {
        must_have(drawing.feet[i].size(), 4, file, "/feet/" + std::to_string(i));
    }
    for (const Json& zone : json.at("zones")) {
        drawing.zones.push_back(zone_in(zone));
    }
    for (const Json& section : json.at("sections")) {
        drawing.sections.push_back(section_in(section));
    }
    if (json.contains("layup")) { // earlier versions had none
        for (const Json& layer : json.at("layup")) {
            drawing.layup.push_back(layer_in(layer));
        }
    }
    return drawing;
}

std::string drawing_json(const Board& board) {
    return json_of(drawing_of(board)).dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace vrid
