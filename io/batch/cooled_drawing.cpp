#include "io/batch/folder_results.hpp"

#include <functional>

namespace vrid {

namespace {

Curve curve(const std::string& name, const auto& points, auto at, auto value) {
    Curve one{name, {}, {}};
    for (const auto& point : points) {
        one.x.push_back(std::invoke(at, point));
        one.y.push_back(std::invoke(value, point));
    }
    return one;
}

// The mould's line with what a case adds to it.
Curve out_of(const Curve& mould, const std::string& name, const std::vector<AxisPoint>& axis) {
    Curve one = curve(name, axis, &AxisPoint::x_mm, &AxisPoint::rise_mm);
    for (std::size_t i = 0; i < one.y.size() && i < mould.y.size(); ++i) {
        one.y[i] += mould.y[i];
    }
    return one;
}

} // namespace

CooledDrawing cooled_drawing(const FoundResult& result) {
    CooledDrawing drawing;
    if (result.mould.empty()) {
        return drawing;
    }
    // of a mould that exists what comes out of it is drawn, else the mould for the wanted shape
    const bool exists = result.mould.front().existing_mould_mm.has_value();
    const Curve mould = curve(
        exists ? "existing mould" : "mould", result.mould, &FoundMould::x_mm,
        [](const FoundMould& point) { return point.existing_mould_mm.value_or(point.mould_mm); });
    drawing.profile.push_back(mould);
    for (const auto& [name, words] :
         {std::pair("release", "released"), std::pair("cold", "cold")}) {
        const auto one = result.cases.find(name);
        if (one == result.cases.end()) {
            continue;
        }
        if (drawing.by_layer.empty()) {
            drawing.by_layer = one->second.by_layer.value_or(drawing.by_layer);
        }
        drawing.profile.push_back(out_of(mould, words, one->second.axis));
        std::size_t place = 0;
        for (const FoundAcross& across : one->second.across) {
            if (drawing.across.size() == place) {
                drawing.across.push_back({across.x_mm, {}});
            }
            drawing.across[place++].curves.push_back(
                curve(words, across.points, &AcrossPoint::y_mm, &AcrossPoint::rise_mm));
        }
    }
    if (exists) {
        drawing.profile.push_back(
            curve("wanted", result.mould, &FoundMould::x_mm, &FoundMould::wanted_mm));
    }
    return drawing;
}

} // namespace vrid
