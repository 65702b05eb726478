#include <algorithm>

#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr double detail_mm = 40;    // of the right side, enlarged
constexpr double detail_scale = 14; // [px/mm]
constexpr double detail_left = 225;
constexpr double label_step = 15;

std::string tip_of(const DrawnLayer& layer) {
    return layer.name + ": " + layer.material + ", " +
           significant(layer.z.second - layer.z.first, 3) + " mm" +
           (layer.angle == 0 ? "" : ", " + significant(layer.angle, 3) + " deg");
}

double height_of(const DrawnSection& section) {
    double top = 0;
    for (const DrawnPart& part : section.parts) {
        for (const DrawnLayer& layer : part.layers) {
            top = std::max(top, layer.z.second);
        }
    }
    return top;
}

/// One part of the width between two y, drawn looking to the nose: +y is left.
void draw_part(Svg& svg, const DrawnPart& part, const std::vector<std::string>& layers, double left,
               double right, double base, double scale) {
    for (const DrawnLayer& layer : part.layers) {
        if (layer.z.second > layer.z.first) {
            svg.rectangle(left, base - scale * layer.z.second, right - left,
                          scale * (layer.z.second - layer.z.first),
                          "layer " + layer_class(layers, layer.name), tip_of(layer));
        }
    }
}

/// Names with leaders from the middle of each layer to evenly spread labels.
void draw_labels(Svg& svg, const std::vector<DrawnLayer>& layers, double from, double to,
                 double base, bool left) {
    std::vector<double> at;
    for (const DrawnLayer& layer : layers) { // upwards: y falls
        const double wanted = base - detail_scale * (layer.z.first + layer.z.second) / 2;
        at.push_back(at.empty() ? std::min(wanted, base - 4)
                                : std::min(wanted, at.back() - label_step));
    }
    for (std::size_t i = 0; i < layers.size(); ++i) {
        const double middle = base - detail_scale * (layers[i].z.first + layers[i].z.second) / 2;
        svg.polyline({{from, middle}, {from + (to - from) * 0.55, at[i]}, {to, at[i]}}, "leader");
        svg.text(to + (left ? -4 : 4), at[i] + 4,
                 layers[i].name + "  " + significant(layers[i].z.second - layers[i].z.first, 3),
                 left ? "end" : "start", "label");
    }
}

std::vector<DrawnLayer> visible(const DrawnPart& part) {
    std::vector<DrawnLayer> layers;
    for (const DrawnLayer& layer : part.layers) {
        if (layer.z.second - layer.z.first > 1e-6) {
            layers.push_back(layer);
        }
    }
    return layers;
}

/// What lies at the rim and not further in: edge, sidewall, flange.
std::vector<DrawnLayer> rim_layers(const DrawnSection& section, const DrawnPart& inner) {
    const auto known = [](const std::vector<DrawnLayer>& layers, const std::string& name) {
        return contains(layers, name, &DrawnLayer::name);
    };
    const std::vector<DrawnLayer> inside = visible(inner);
    std::vector<DrawnLayer> found;
    for (const DrawnPart& part : section.parts) { // from the right rim inwards
        if (part.y.first - section.parts.front().y.first > detail_mm) {
            break;
        }
        for (const DrawnLayer& layer : visible(part)) {
            if (!known(inside, layer.name) && !known(found, layer.name)) {
                found.push_back(layer);
            }
        }
    }
    std::ranges::sort(found, {}, &DrawnLayer::z);
    return found;
}

void draw_detail(Svg& svg, const DrawnSection& section, const std::vector<std::string>& layers,
                 double base) {
    const double rim = section.parts.front().y.first;
    const double right = detail_left + detail_scale * detail_mm;
    const DrawnPart* inner = &section.parts.front();
    for (const DrawnPart& part : section.parts) {
        const double from = std::min(part.y.first - rim, detail_mm);
        const double to = std::min(part.y.second - rim, detail_mm);
        if (to > from) {
            draw_part(svg, part, layers, right - detail_scale * to, right - detail_scale * from,
                      base, detail_scale);
            inner = &part;
        }
    }
    draw_labels(svg, visible(*inner), detail_left, detail_left - 34, base, true);
    draw_labels(svg, rim_layers(section, *inner), right, right + 34, base, false);
}

} // namespace

std::string layer_class(const std::vector<std::string>& layers, const std::string& name) {
    const auto found = std::ranges::find(layers, name);
    constexpr std::ptrdiff_t colours = 10;
    return "L" + std::to_string((found - layers.begin()) % colours);
}

std::vector<std::string> layer_names(const Drawing& drawing) {
    std::vector<std::string> names;
    for (const DrawnSection& section : drawing.sections) {
        for (const DrawnPart& part : section.parts) {
            for (const DrawnLayer& layer : part.layers) {
                add_once(names, layer.name);
            }
        }
    }
    std::ranges::sort(names);
    return names;
}

std::string section_picture(const DrawnSection& section, double widest,
                            const std::vector<std::string>& layers, const std::string& id) {
    if (section.parts.empty()) {
        return "";
    }
    const double scale = (picture_width - 20) / widest;
    const double height = height_of(section);
    const double width = section.parts.back().y.second - section.parts.front().y.first;
    const double middle = (section.parts.back().y.second + section.parts.front().y.first) / 2;
    const double names = label_step * static_cast<double>(layers.size() + 1);
    const double detail = std::max(detail_scale * height, names) + 26;
    const double base = 34 + scale * height;
    Svg svg(picture_width, base + detail + 26);
    const std::string title = section.label + ", x = " + significant(section.x, 4) + " mm";
    svg.text(10, 16, title, "start", "head");
    svg.text(picture_width - 10, 16,
             significant(width, 4) + " mm wide, " + significant(height, 3) + " mm thick", "end",
             "note");
    for (const DrawnPart& part : section.parts) {
        draw_part(svg, part, layers, picture_width / 2 - scale * (part.y.second - middle),
                  picture_width / 2 - scale * (part.y.first - middle), base, scale);
    }
    svg.line(picture_width / 2, 24, picture_width / 2, base + 6, "axis");
    const double shown = std::min(detail_mm, width) * scale;
    const double rim = picture_width / 2 + scale * width / 2;
    svg.polyline(
        {{rim - shown, base + 3}, {rim - shown, base + 8}, {rim, base + 8}, {rim, base + 3}},
        "leader");
    draw_detail(svg, section, layers, base + detail);
    svg.text(detail_left, base + detail + 17,
             "right side, " + significant(std::min(detail_mm, width), 2) +
                 " mm, enlarged; thicknesses in mm; looking to the nose",
             "start", "note");
    return svg.markup(id, "Cross-section at " + title,
                      "To scale in both directions, looking to the nose; below it the right side "
                      "enlarged with every layer named, from the running surface upwards.");
}

} // namespace vrid
