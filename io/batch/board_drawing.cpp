#include "io/batch/board_drawing.hpp"

#include "io/batch/laid_layers.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

/// Lists of another length than the pictures go by are damage. \throws InputError naming the place
void must_have(std::size_t found, std::size_t wanted, const fs::path& file,
               const std::string& pointer) {
    if (found != wanted) {
        throw InputError(file.string(), "is damaged at " + pointer + ": found a list of " +
                                            std::to_string(found) + ", accepted is a list of " +
                                            std::to_string(wanted));
    }
}

} // namespace

Drawing drawing_of(const Json& json, const std::filesystem::path& file) {
    Drawing drawing;
    drawing.outline = json.at("outline").get<decltype(drawing.outline)>();
    drawing.contact = json.at("contact").get<std::vector<double>>();
    drawing.feet = json.at("feet").get<decltype(drawing.feet)>();
    must_have(drawing.contact.size(), 2, file, "/contact");
    for (const char* side : {"left", "right"}) {
        std::vector<double>& own = drawing.edge_contact[side];
        own = json.value(Json::json_pointer(std::string("/edge_contact/") + side), drawing.contact);
        must_have(own.size(), 2, file, std::string("/edge_contact/") + side);
    }
    for (std::size_t i = 0; i < drawing.feet.size(); ++i) {
        must_have(drawing.feet[i].size(), 4, file, "/feet/" + std::to_string(i));
    }
    for (const Json& one : json.at("zones")) {
        DrawnZone zone;
        zone.layer = one.at("layer").get<std::string>();
        if (one.at("kind") == "area") {
            zone.points = one.at("points").get<decltype(zone.points)>();
        } else {
            zone.from = one.at("from").get<double>();
            zone.to = one.at("to").get<double>();
            zone.x_from = one.at("x").at(0).get<double>();
            zone.x_to = one.at("x").at(1).get<double>();
        }
        drawing.zones.push_back(zone);
    }
    for (const Json& one : json.at("sections")) {
        DrawnSection section{one.at("label").get<std::string>(), one.at("x").get<double>(), {}};
        for (const Json& part : one.at("parts")) {
            DrawnPart drawn{part.at("y").at(0).get<double>(), part.at("y").at(1).get<double>(), {}};
            for (const Json& layer : part.at("layers")) {
                drawn.layers.push_back(
                    {layer.at("name").get<std::string>(), layer.at("material").get<std::string>(),
                     layer.at("angle").get<double>(), layer.at("z").at(0).get<double>(),
                     layer.at("z").at(1).get<double>()});
            }
            section.parts.push_back(drawn);
        }
        drawing.sections.push_back(section);
    }
    drawing.layup = laid_layers(json);
    return drawing;
}

} // namespace vrid
