#include "io/materials/read_material.hpp"
#include "io/read/read_tables.hpp"

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
    strip.x = table.range_if("x_mm");
    if (table.has("fill")) {
        strip.fill = read_name(table, "fill", stock.materials, "material");
    }
    table.know({"fill"});
    table.finish();
    return strip;
}

std::vector<Strip> read_strips(TableReader& table, std::string_view key, const Stock& stock) {
    const std::size_t problems = table.reading().problems.size();
    std::vector<Strip> strips;
    auto tables = table.tables(key);
    if (tables.empty() && table.reading().problems.size() == problems) {
        table.wrong(key, "an array of at least one strip");
    }
    for (TableReader& strip : tables) {
        strips.push_back(read_strip(strip, stock));
    }
    return strips;
}

Profile read_profile(TableReader& table, std::string_view key) {
    Profile profile;
    for (const Eigen::Vector2d& station : table.stations(key)) {
        profile.x.push_back(station.x());
        profile.value.push_back(station.y());
    }
    return profile;
}

} // namespace

Core read_core(TableReader table, const Stock& stock) {
    Core core;
    const Interpolation interpolation = read_interpolation(table);
    core.thickness = read_profile(table, "thickness_mm");
    core.thickness.interpolation = interpolation;
    if (table.has("cross_mm")) {
        core.cross = read_profile(table, "cross_mm");
        core.cross->interpolation = Interpolation::linear;
    }
    table.know({"cross_mm", "strips", "strips_left", "strips_right"});
    if (table.has("strips_left") || table.has("strips_right")) {
        core.strips = read_strips(table, "strips_left", stock);
        core.strips_right = read_strips(table, "strips_right", stock);
        table.refuse("strips", "not accepted beside strips_left and strips_right");
    } else {
        core.strips = read_strips(table, "strips", stock);
    }
    core.resolve = table.flag_or("resolve", false);
    table.finish();
    return core;
}

} // namespace vrid
