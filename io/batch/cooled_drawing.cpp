#include "io/batch/cooled_drawing.hpp"

namespace vrid {

namespace {

Curve curve(const std::string& name, const Json& points, const char* at, const char* value) {
    Curve one{name, {}, {}};
    for (const Json& point : points) {
        one.x.push_back(point.at(at).get<double>());
        one.y.push_back(point.at(value).get<double>());
    }
    return one;
}

// The mould's line with what a case adds to it.
Curve out_of(const Curve& mould, const std::string& name, const Json& axis) {
    Curve one = curve(name, axis, "x_mm", "rise_mm");
    for (std::size_t i = 0; i < one.y.size() && i < mould.y.size(); ++i) {
        one.y[i] += mould.y[i];
    }
    return one;
}

} // namespace

CooledDrawing cooled_drawing(const Json& result) {
    CooledDrawing drawing;
    if (!result.is_object() || !result.contains("mould")) {
        return drawing;
    }
    const Json& cases = result.at("cases");
    // of a mould that exists what comes out of it is drawn, else the mould for the wanted shape
    const Json& line = result.at("mould");
    const bool exists = !line.empty() && line.at(0).contains("existing_mould_mm");
    const Curve mould = exists ? curve("existing mould", line, "x_mm", "existing_mould_mm")
                               : curve("mould", line, "x_mm", "mould_mm");
    drawing.profile.push_back(mould);
    for (const auto& [name, words] :
         {std::pair("release", "released"), std::pair("cold", "cold")}) {
        if (!cases.contains(name)) {
            continue;
        }
        const Json& one = cases.at(name);
        drawing.profile.push_back(out_of(mould, words, one.at("axis")));
        std::size_t place = 0;
        for (const Json& across : one.at("across")) {
            if (drawing.across.size() == place) {
                drawing.across.push_back({across.at("x_mm").get<double>(), {}});
            }
            drawing.across[place++].curves.push_back(
                curve(words, across.at("points"), "y_mm", "rise_mm"));
        }
    }
    if (exists) {
        drawing.profile.push_back(curve("wanted", line, "x_mm", "wanted_mm"));
    }
    for (const Json& part : cases.at("release").at("by_layer")) {
        drawing.by_layer.push_back(
            {part.at("layer").get<std::string>(),
             {part.at("camber").get<double>(), part.at("concavity").get<double>(),
              part.at("twist").get<double>()}});
    }
    return drawing;
}

} // namespace vrid
