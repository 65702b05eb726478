#include "io/design/edit_lines.hpp"

#include <algorithm>
#include <optional>

#include "io/write/design_path.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "solver/design/line_kinds.hpp"

namespace vrid {

namespace {

using Property = DesignProperty;

// Where a value stands in the file: a key of a table, or a number in its array.
struct Stand {
    std::optional<DraftTable> table;
    std::string key;
    std::optional<std::size_t> entry; ///< of the array
    bool of_pair = false;             ///< the first number of the entry, which is a pair
};

std::optional<DraftTable> inner_table(const DraftTable& root, const std::string& path) {
    const auto dot = path.find('.');
    const auto outer = table_in(root, path.substr(0, dot));
    return outer && dot != std::string::npos ? table_in(*outer, path.substr(dot + 1)) : outer;
}

Stand stand_of(const DraftTable& root, const Board& board, const DesignId& id) {
    const std::string range = range_of(*id.kind);
    const auto dot = range.rfind('.');
    const std::string table = range.substr(0, dot);
    const std::string key = range.substr(dot + 1);
    if (id.kind->property == Property::core_station) {
        return {table_in(root, "core"), "thickness_mm", id.index, true};
    }
    if (id.kind->property == Property::rest_station) {
        return {table_in(root, "rest_shape"), "z_mm", id.index, true};
    }
    if (id.kind->property == Property::mould_station) {
        return {table_in(root, "cure"), "mould_z_mm", id.index, true};
    }
    if (table != "layer.zone") {
        const bool row = id.kind->form == DesignForm::station;
        return {inner_table(root, table), key, row ? std::optional(id.index) : std::nullopt};
    }
    const auto layer = std::ranges::find(board.layers, id.part, &Layer::name);
    const auto layers = tables_in(root, "layer");
    const auto place = static_cast<std::size_t>(layer - board.layers.begin());
    if (place >= layers.size()) {
        return {};
    }
    const auto zones = tables_in(layers[place], "zones");
    const auto zone = id.index / 2 < zones.size() ? std::optional(zones[id.index / 2])
                                                  : table_in(layers[place], "zone");
    return {zone, key, id.index % 2};
}

const toml::node* node_of(const Stand& stand) {
    const toml::node* node = stand.table ? stand.table->table->get(stand.key) : nullptr;
    const auto entry_of = [](const toml::node* of, std::size_t entry) -> const toml::node* {
        const toml::array* array = of != nullptr ? of->as_array() : nullptr;
        return array != nullptr ? array->get(entry) : nullptr;
    };
    if (stand.entry) {
        node = entry_of(node, *stand.entry);
    }
    return stand.of_pair ? entry_of(node, 0) : node;
}

} // namespace

void edit_lines(BoardDraft& draft, const Board& was, const Board& wanted) {
    Board before = was; // places refer to boards that can be changed
    Board after = wanted;
    std::vector<DesignPlace> old;
    std::vector<DesignPlace> fresh;
    add_line_places(before, old);
    add_line_places(after, fresh);
    const DraftTable root{&draft.root, false};
    for (std::size_t i = 0; i < std::min(old.size(), fresh.size()); ++i) {
        const double value = *value_now(fresh[i]);
        if (value == *value_now(old[i])) {
            continue;
        }
        const Stand stand = stand_of(root, was, old[i].id);
        const double shown = from_si(old[i].id, value);
        const toml::node* node = node_of(stand);
        if (node != nullptr && node->is_number()) {
            set_number(draft, *node, shown);
        } else if (stand.table && !stand.entry && node == nullptr) {
            set_number(draft, *stand.table, stand.key, shown);
        } else {
            throw InputError(path_of(old[i].id), "the file itself has no such number to change");
        }
    }
}

} // namespace vrid
