#include "io/batch/laid_layers.hpp"

#include "io/write/csv_cell.hpp"

namespace vrid {
namespace {

LaidPly ply_of(const Json& json) {
    const bool weighed = json.contains("gsm");
    const double amount = json.at(weighed ? "gsm" : "mm").get<double>();
    return {json.at("of").get<std::string>(), json.at("angle_deg").get<double>(),
            csv_cell(amount) + (weighed ? "" : " mm")};
}

} // namespace

std::vector<LaidLayer> laid_layers(const Json& drawing) {
    std::vector<LaidLayer> all;
    if (!drawing.contains("layup")) {
        return all;
    }
    for (const Json& one : drawing.at("layup")) {
        LaidLayer layer{one.at("layer").get<std::string>(),
                        one.at("of").get<std::string>(),
                        one.at("where").get<std::string>(),
                        {},
                        {},
                        {},
                        0};
        if (!one.at("thickness_mm").is_null()) {
            layer.thickness = one.at("thickness_mm").get<double>();
        }
        for (const Json& ply : one.at("plies")) {
            layer.plies.push_back(ply_of(ply));
        }
        if (one.contains("resin")) {
            layer.resin = one.at("resin").get<std::string>();
            layer.resin_weight = one.at("resin_gsm").get<double>();
        }
        all.push_back(std::move(layer));
    }
    return all;
}

} // namespace vrid
