#include "io/live/board_values.hpp"

#include <algorithm>
#include <cmath>

#include "io/toml/accepted.hpp"
#include "io/write/board_figures.hpp"
#include "io/write/design_path.hpp"
#include "io/write/drawing.hpp"
#include "io/write/limits.hpp"
#include "io/write/number_name.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "solver/design/design_board.hpp"

namespace vrid {

namespace {

constexpr int digits = 12;       // as io/design/edit_board writes numbers
constexpr double nothing = 1e-9; // below it a number without a bar is rounding

std::string group_of(const DesignKind& kind) {
    const std::string key = range_of(kind);
    return key.substr(0, key.find('.'));
}

Json value_json(const DesignValue& value) {
    const std::string key = range_of(value.kind());
    const Accepted& range = accepted(key);
    const FileUnit unit = file_unit(key);
    return {{"path", path_of(value.id)},
            {"group", group_of(value.kind())},
            {"part", value.id.part},
            {"index", value.id.index},
            {"value", round_significant(from_si(key, value.value), digits)},
            {"unit", unit.name},
            {"min", range.min},
            {"max", range.max},
            {"accepted", accepted_text(range)},
            {"step", round_significant(from_si(key, workshop_step(value)), 3)},
            {"scale", value.kind().form == DesignForm::scale}};
}

Json file_value_json(const FileValue& value, const Json& materials) {
    Json json{{"path", value.path}, {"group", value.group}, {"part", value.part}};
    if (const auto* number = std::get_if<double>(&value.value)) {
        const Accepted& range = accepted(value.key);
        json["value"] = *number;
        json["unit"] = file_unit(value.key).name;
        json["min"] = range.min;
        json["max"] = range.max;
        json["accepted"] = accepted_text(range);
    } else {
        json["value"] = std::get<std::string>(value.value);
        json["choices"] = materials;
    }
    return json;
}

Json profile_json(const Core& core) {
    const auto mm = [](double metres) {
        return round_significant(to_bench({metres, 0, Unit::length}).value, digits) + 0.0;
    };
    const Profile& profile = core.thickness;
    Json json{{"x", Json::array()}, {"z", Json::array()}, {"stations", Json::array()}};
    const std::vector<double> slopes = smooth_slopes(profile);
    constexpr int pieces = 240;
    const double from = profile.x.front(), to = profile.x.back();
    for (int i = 0; i <= pieces; ++i) {
        const double x = from + (to - from) * i / pieces;
        json["x"].push_back(mm(x));
        json["z"].push_back(mm(value_at(profile, slopes, x)));
    }
    for (std::size_t i = 0; i < profile.x.size(); ++i) {
        json["stations"].push_back({mm(profile.x[i]), mm(profile.value[i])});
    }
    return json;
}

void add_limits(Json& numbers, const Board& board, const BoardNumbers& found) {
    std::vector<NamedQuantity> known =
        plain_numbers(board, outline_figures(board), board_mass(board));
    for (const BoardNumber& number : found.numbers) {
        const std::string name = number_name(number.request);
        if (name != "mass") {
            known.push_back({name, number.quantity});
        }
    }
    for (const LimitVerdict& verdict : judge(board.limits, known)) {
        if (!verdict.found) {
            continue;
        }
        Json* row = nullptr;
        for (Json& one : numbers) {
            row = one["name"] == verdict.name ? &one : row;
        }
        if (row == nullptr) {
            const RoundedNumber text = rounded(verdict.found->value, verdict.found->error);
            numbers.push_back({{"name", verdict.name},
                               {"value", verdict.found->value},
                               {"error", verdict.found->error},
                               {"unit", verdict.found->unit},
                               {"shown", text.value},
                               {"bar", text.error},
                               {"slopes", Json::array()}});
            row = &numbers.back();
        }
        (*row)["limit"] = verdict.unresolved ? "within the bar"
                          : verdict.exceeded ? "outside"
                                             : "within";
        if (verdict.limit.min) {
            (*row)["min"] = *verdict.limit.min;
        }
        if (verdict.limit.max) {
            (*row)["max"] = *verdict.limit.max;
        }
    }
}

} // namespace

Json values_json(const NamedBoard& read, const std::vector<FileValue>& of_file) {
    Json all = Json::array();
    for (const DesignValue& value : design_board(read.board).values) {
        if (!value.kind().moves_lines) { // those the page sets in the file's text
            all.push_back(value_json(value));
        }
    }
    const auto name = [](const auto& entry) { return entry.first; };
    const Json choices = each_of(read.named.fabrics, name);
    for (const Layer& layer : read.board.layers) {
        if (layer.kind == LayerKind::fabric) {
            all.push_back({{"path", "layer." + layer.name + ".fabric"},
                           {"group", "layer"},
                           {"part", layer.name},
                           {"value", layer.fabric},
                           {"choices", choices}});
        }
    }
    const Json materials = each_of(read.named.materials, name);
    const std::vector<std::string> design = still_value_paths(read.board);
    for (const FileValue& value : of_file) {
        if (!std::ranges::binary_search(design, value.path)) {
            all.push_back(file_value_json(value, materials));
        }
    }
    return all;
}

Json shape_json(const Board& board, double x_mm) {
    Json json = written(drawing_of(board));
    json["profile"] = board.core ? profile_json(*board.core) : Json();
    try {
        json["section"] = written(drawn_section(board, "at the pointer", to_si("x_mm", x_mm)));
    } catch (const InputError&) {
        json["section"] = nullptr; // beyond the tips
    }
    Json layers = Json::array();
    for (auto layer = board.layers.rbegin(); layer != board.layers.rend(); ++layer) {
        const bool fabric = layer->kind == LayerKind::fabric;
        layers.push_back({{"name", layer->name},
                          {"kind", fabric                           ? "fabric"
                                   : layer->kind == LayerKind::core ? "core"
                                                                    : "material"},
                          {"of", fabric ? layer->fabric : layer->material}});
    }
    json["layers"] = layers;
    return json;
}

Json numbers_json(const Board& board, const BoardNumbers& found) {
    Json json{{"paths", Json::array()}, {"numbers", Json::array()}};
    std::vector<double> per_file;
    for (const DesignId& id : found.values) { // 0: no slope was asked for
        per_file.push_back(id.kind->moves_lines ? 0 : to_si(id, 1));
        if (per_file.back() != 0) {
            json["paths"].push_back(path_of(id));
        }
    }
    for (const BoardNumber& number : found.numbers) {
        BenchQuantity bench = to_bench(number.quantity);
        if (std::abs(bench.value) < nothing && bench.error == 0) {
            bench.value = 0; // the balance point of a board that is alike left and right
        }
        const RoundedNumber text = rounded(bench.value, bench.error);
        Json row{{"name", number_name(number.request)},
                 {"value", bench.value},
                 {"error", bench.error},
                 {"unit", bench.unit},
                 {"shown", text.value},
                 {"bar", text.error},
                 {"position", is_position(number.request)},
                 {"slopes", Json::array()}};
        const double per_si = bench_unit(number.quantity.unit).per_si;
        for (Eigen::Index i = 0; i < number.slope.size(); ++i) {
            if (const double unit = per_file[std::size_t(i)]; unit != 0) {
                row["slopes"].push_back(round_significant(number.slope[i] * per_si * unit, 6));
            }
        }
        json["numbers"].push_back(row);
    }
    add_limits(json["numbers"], board, found);
    json["warnings"] = found.warnings;
    return json;
}

} // namespace vrid
