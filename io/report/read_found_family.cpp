#include <cmath>

#include "io/report/found_family.hpp"
#include "io/write/read_document.hpp"

namespace vrid {
namespace {

std::vector<FoundSizeTarget> targets_in(const Json& json) {
    std::vector<FoundSizeTarget> all;
    for (const Json& one : json) {
        all.push_back({words_in(one, "number"), number_in(one, "wanted"),
                       quantity_in(one.at("value")), one.at("met").get<bool>()});
    }
    return all;
}

// Mass and what of the outline is one number; of the two sidecut radii the smaller one.
void read_figures(const Json& json, FoundSize& size) {
    if (json.contains("mass")) {
        size.figures.emplace_back("mass", quantity_in(json.at("mass")));
    }
    if (!json.contains("outline")) {
        return;
    }
    for (const auto& [name, one] : json.at("outline").items()) {
        if (one.is_object() && one.contains("value")) {
            size.figures.emplace_back(name, quantity_in(one));
        } else if (name == "sidecut_radius") {
            const BenchQuantity left = quantity_in(one.at("left"));
            const BenchQuantity right = quantity_in(one.at("right"));
            size.figures.emplace_back(name, right.value < left.value ? right : left);
        }
    }
}

void read_along(const Json& json, FoundSize& size) {
    std::size_t rows = 0;
    for (const auto& [name, cells] : json.items()) {
        std::vector<double> column;
        for (const Json& cell : cells) {
            column.push_back(cell.is_null() ? std::nan("") : cell.get<double>());
        }
        rows = size.along.empty() ? column.size() : rows;
        must_hold(column.size() == rows, "the column '" + name + "' has another length");
        size.along.emplace_back(name, std::move(column));
    }
}

FoundSize size_in(const Json& json) {
    FoundSize size;
    size.name = words_in(json, "name");
    size.rider = perhaps_in(json, "rider_kg");
    size.met = json.at("met").get<bool>();
    size.targets = targets_in(json.at("targets"));
    for (const auto& [path, value] : json.at("values").items()) {
        size.values.emplace_back(path, value.get<double>());
    }
    read_figures(json, size);
    if (json.contains("drawing")) {
        size.outline = json.at("drawing").at("outline").get<decltype(size.outline)>();
    }
    if (json.contains("along")) {
        read_along(json.at("along"), size);
    }
    return size;
}

template <class Pairs> const auto* second_of(const Pairs& pairs, const std::string& what) {
    for (const auto& [name, second] : pairs) {
        if (name == what) {
            return &second;
        }
    }
    return static_cast<decltype(&pairs.front().second)>(nullptr);
}

} // namespace

const BenchQuantity* FoundSize::figure(const std::string& what) const {
    return second_of(figures, what);
}

const std::vector<double>* FoundSize::column(const std::string& what) const {
    return second_of(along, what);
}

FoundFamily read_found_family(const std::string& text, const std::string& file) {
    FoundFamily found;
    read_document(text, file, "sizes", [&](const Json& json) {
        found.program = words_in(json, "program");
        if (json.contains("board")) {
            found.board = words_in(json.at("board"), "name");
            found.hash = words_in(json.at("board"), "hash");
        }
        for (const Json& one : json.at("sizes")) {
            found.sizes.push_back(size_in(one));
        }
    });
    return found;
}

} // namespace vrid
