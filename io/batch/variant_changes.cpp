#include "io/batch/job.hpp"

#include <algorithm>

#include "io/design/design_values.hpp"
#include "io/materials/design_paths.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

std::string before_of(const Board& drawn, const std::string& path) {
    constexpr int digits = 6;
    if (const auto value = find_design(drawn, path)) {
        return csv_cell(round_significant(from_si(value->id, value->value), digits));
    }
    for (const Layer& layer : drawn.layers) {
        if (path == "layer." + layer.name + ".fabric") {
            return layer.fabric;
        }
    }
    return ""; // only the variant has it
}

std::string layer_text(const LaidLayer& layer) {
    std::string text = layer.of;
    for (const LaidPly& ply : layer.plies) {
        text += (text.empty() ? "" : "; ") + ply.of + " " + csv_cell(ply.angle_deg) + " deg " +
                amount_text(ply);
    }
    if (layer.thickness_mm) {
        text += (text.empty() ? "" : ", ") + significant(*layer.thickness_mm, 3) + " mm";
    }
    return text + (layer.where.empty() ? "" : ", " + layer.where);
}

std::string text_in(const std::vector<LaidLayer>& layers, const std::string& name) {
    const auto found = std::ranges::find(layers, name, &LaidLayer::layer);
    return found == layers.end() ? "" : layer_text(*found);
}

} // namespace

std::vector<VariantChange> value_changes(const Board& drawn, const Variant& variant) {
    constexpr int digits = 6;
    std::vector<VariantChange> all;
    for (const Change& change : variant.changes) {
        const double* number = std::get_if<double>(&change.value);
        all.push_back({change.path, before_of(drawn, change.path),
                       number != nullptr ? csv_cell(round_significant(*number, digits))
                                         : std::get<std::string>(change.value)});
    }
    return all;
}

std::vector<VariantChange> layup_changes(const std::vector<LaidLayer>& drawn,
                                         const std::vector<LaidLayer>& variant) {
    std::vector<VariantChange> all;
    const auto compare = [&](const std::string& name) {
        const VariantChange change{"layer " + name, text_in(drawn, name), text_in(variant, name)};
        if (change.before != change.after && !contains(all, change)) {
            all.push_back(change);
        }
    };
    for (const auto* layers : {&drawn, &variant}) {
        for (const LaidLayer& layer : *layers) {
            compare(layer.layer);
        }
    }
    return all;
}

} // namespace vrid
