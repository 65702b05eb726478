#include "io/write/json_parts.hpp"

#include <cmath>
#include <filesystem>

namespace vrid {
namespace {

constexpr int value_digits = 10; // far inside any bar; hides the last bits of double arithmetic
constexpr int error_digits = 3;
constexpr int place_decimals = 6; // a place near 0 is 0, not 5.6e-16

} // namespace

Json json_of(const BenchQuantity& quantity) {
    return Json{{"value", round_significant(quantity.value, value_digits)},
                {"unit", quantity.unit},
                {"error", std::isfinite(quantity.error)
                              ? Json(round_significant(quantity.error, error_digits))
                              : Json()}}; // not known
}

Json json_of(const Quantity& quantity) {
    return json_of(to_bench(quantity));
}

Json json_of(const OutlineFigures& outline) {
    const auto length = [](double value) { return json_of(Quantity{value, 0, Unit::length}); };
    const auto radius = [](double value) {
        Json one = json_of(BenchQuantity{value, 0, "m"}); // null without a radius
        if (std::isinf(value)) {
            one["reason"] =
                "straight: the side has no narrowest place between the contact stations";
        }
        return one;
    };
    Json all;
    all["length"] = length(outline.length);
    all["running_length"] = length(outline.running_length);
    all["tail_width"] = length(outline.tail_width);
    all["waist_width"] = length(outline.waist_width);
    all["nose_width"] = length(outline.nose_width);
    all["waist_x"] = length(outline.waist_x);
    all["sidecut_radius"] = Json{{"left", radius(outline.sidecut_radius[0])},
                                 {"right", radius(outline.sidecut_radius[1])}};
    all["area"] = json_of(Quantity{outline.area, 0, Unit::area});
    for (const auto& [side, own] : {std::pair("left", outline.edge_contact[0]),
                                    std::pair("right", outline.edge_contact[1])}) {
        if (own) {
            all["edge_contact"][side] = {{"tail", length((*own)[0])}, {"nose", length((*own)[1])}};
        }
    }
    if (outline.drawn) {
        all["drawn"] = Json{{"points", outline.drawn->points},
                            {"tolerance", length(outline.drawn->tolerance)},
                            {"largest_move", length(outline.drawn->largest_move)},
                            {"largest_move_x", length(outline.drawn->move_x)}};
    }
    return all;
}

Json balance_point(const MassReport& mass) {
    const auto place = [](double value) {
        BenchQuantity bench = to_bench({value, 0, Unit::length});
        bench.value = std::stod(fixed(bench.value, place_decimals));
        return json_of(bench);
    };
    return Json{{"x", place(mass.x)}, {"y", place(mass.y)}};
}

Json json_of(const std::vector<Problem>& warnings) {
    Json all = Json::array();
    for (const Problem& warning : warnings) {
        const std::string place = std::filesystem::path(warning.place).filename().string();
        all.push_back(place.empty() ? warning.message : place + ": " + warning.message);
    }
    return all;
}

namespace {

// replace: a stray byte in a name must not stop the result from being written
std::string dumped(const Json& json, int indent) {
    return json.dump(indent, ' ', false, Json::error_handler_t::replace);
}

} // namespace

std::string json_text(const Json& json) {
    return dumped(json, 2) + "\n";
}

std::string json_line(const Json& json) {
    return dumped(json, -1);
}

Json read_json(const std::string& text) {
    return Json::parse(text, nullptr, false);
}

} // namespace vrid
