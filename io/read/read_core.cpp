#include "io/materials/read_material.hpp"
#include "io/read/read_layers.hpp"

namespace vrid {

namespace {

Interpolation read_interpolation(TableReader& table) {
    const std::string text = table.text_if("interpolation");
    if (!text.empty() && text != "smooth" && text != "linear") {
        table.wrong("interpolation", R"("smooth" or "linear")");
    }
    return text == "linear" ? Interpolation::linear : Interpolation::smooth;
}

Strip read_strip(TableReader& table, const Stock& stock) {
    Strip strip;
    strip.material = read_name(table, "material", stock.materials, "material");
    strip.width = table.number("width_mm");
    strip.x = read_board_range(table, stock);
    table.finish();
    return strip;
}

} // namespace

Core read_core(TableReader table, const Stock& stock) {
    Core core;
    core.thickness.interpolation = read_interpolation(table);
    for (const Eigen::Vector2d& station : table.stations("thickness_mm")) {
        core.thickness.x.push_back(station.x());
        core.thickness.value.push_back(station.y());
    }
    auto strips = table.tables("strips");
    if (strips.empty()) {
        table.wrong("strips", "an array of at least one strip");
    }
    for (TableReader& strip : strips) {
        core.strips.push_back(read_strip(strip, stock));
    }
    core.resolve = table.flag_or("resolve", false);
    table.finish();
    return core;
}

} // namespace vrid
