#include "io/write/board_text.hpp"
#include "io/write/caution.hpp"
#include "io/write/json_parts.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

Json si(double value, Unit unit) {
    return json_of(Quantity{value, 0, unit});
}

Json layer_json(const LayerAcross& layer) {
    Json parts = Json::array();
    for (const Range& part : layer.y) {
        parts.push_back({to_bench({part[0], 0, Unit::length}).value,
                         to_bench({part[1], 0, Unit::length}).value});
        for (auto& end : parts.back()) {
            end = round_significant(end.get<double>(), 7); // borders are found to 1e-9 m or so
        }
    }
    return Json{{"name", layer.name},
                {"material", layer.material},
                {"angle", si(layer.angle, Unit::angle)},
                {"thickness", si(layer.thickness, Unit::length)},
                {"y_mm", parts}};
}

Json station_json(const StationFigures& station) {
    const CrossSection& s = station.section;
    Json all;
    all["label"] = station.label;
    all["x"] = si(s.x, Unit::length);
    all["width"] = si(s.width, Unit::length);
    all["core_thickness"] = si(s.core_thickness, Unit::length);
    all["thickness"] = si(s.thickness, Unit::length);
    all["mass_per_length"] = si(s.mass_per_length, Unit::mass_per_length);
    all["EI"] = si(s.EI, Unit::section_stiffness);
    all["GJ"] = si(s.GJ, Unit::section_stiffness);
    all["layers"] = each_of(station.layers, layer_json);
    return all;
}

Json board_json(const BoardFigures& figures, const Verdicts& verdicts) {
    Json all;
    all["name"] = figures.name;
    all["hash"] = figures.hash;
    if (!figures.set.empty()) {
        all["set"] = figures.set;
    }
    all["outline"] = json_of(figures.outline);
    all["mass"] = json_of(mass_quantity(figures.mass));
    all["balance_point"] = balance_point(figures.mass);
    all["mass_by_material"] = Json::object();
    for (const MassItem& item : figures.mass.by_material) {
        all["mass_by_material"][item.name] = si(item.mass, Unit::mass);
    }
    if (figures.rest) {
        all["rest_shape"] = Json{{"smallest_radius", si(figures.rest->radius.radius, Unit::length)},
                                 {"smallest_radius_x", si(figures.rest->radius.x, Unit::length)},
                                 {"tail_shorter", si(figures.rest->tail_shorter, Unit::length)},
                                 {"nose_shorter", si(figures.rest->nose_shorter, Unit::length)}};
    }
    all["stations"] = each_of(figures.stations, station_json);
    all["limits"] = written(verdicts);
    all["warnings"] = json_of(figures.warnings);
    return all;
}

} // namespace

std::string boards_json(const std::vector<BoardFigures>& boards,
                        const std::vector<Verdicts>& verdicts) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["boards"] = Json::array();
    for (std::size_t i = 0; i < boards.size(); ++i) {
        all["boards"].push_back(board_json(boards[i], verdicts[i]));
    }
    return json_text(all);
}

} // namespace vrid
