#include "io/design/design_values.hpp"

#include <algorithm>
#include <cmath>

#include "io/materials/design_paths.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/design/design_kinds.hpp"
#include "solver/design/line_kinds.hpp"

namespace vrid {

namespace {

enum Order : int { fabrics_first, then_values, scales_last };

/// What can be set in a board: a number, or a layer's fabric by its name.
struct Settable {
    std::string path;
    Order order = then_values;
    DesignPlace number;
    Layer* layer = nullptr; ///< the one that takes the fabric; null: a number is set
};

using Settables = std::vector<Settable>;

/// Fabrics are shared by name: a layer that differs gets a fabric of its own.
void scale_weight(Board& board, Layer& layer, double factor) {
    Fabric own = board.fabrics.at(layer.fabric);
    for (double* weight : weights_of(own)) {
        *weight *= factor;
    }
    own.name = layer.fabric + " x " + number_text(factor) + " (" + layer.name + ")";
    layer.fabric = own.name;
    board.fabrics[own.name] = own;
}

void keep(Board& board, const MaterialLibrary& named, const std::string& material) {
    if (const auto found = named.materials.find(material); found != named.materials.end()) {
        board.materials.insert(*found); // one that is there may have been changed already
    }
}

void take_fabric(Board& board, Layer& layer, const MaterialLibrary& named,
                 const std::string& name) {
    const Fabric& fabric = named.fabrics.at(name);
    board.fabrics.emplace(name, fabric);
    keep(board, named, fabric.resin);
    keep(board, named, fabric.strengths_of);
    for (const FabricPly& ply : fabric.plies) {
        keep(board, named, ply.fibre);
        keep(board, named, ply.ply_material);
    }
    layer.fabric = name;
}

Settables settables(Board& board) {
    Settables all;
    for (DesignPlace& place : design_places(board)) {
        const bool scale = place.id.kind->form == DesignForm::scale;
        all.push_back(
            {path_of(place.id), scale ? scales_last : then_values, std::move(place), nullptr});
    }
    for (Layer& layer : board.layers) {
        if (layer.kind == LayerKind::fabric) {
            all.push_back({"layer." + layer.name + ".fabric", fabrics_first, {}, &layer});
        }
    }
    return all;
}

std::vector<std::string> names(const Settables& values) {
    std::vector<std::string> all = each_of(values, &Settable::path);
    std::ranges::sort(all);
    return all;
}

std::string unknown_path(const std::string& path, const Settables& values) {
    const auto starts = [&](const char* table) { return path.starts_with(table); };
    if (starts("planform.") || starts("edge.") || starts("sidewall.") || starts("stance.") ||
        starts("tip_spacer.")) {
        return "no design value of this board: its file has no such number" +
               did_you_mean(path, names(values));
    }
    return "no design value of this board" + did_you_mean(path, names(values));
}

std::string set_name(Board& board, Layer& layer, const MaterialLibrary& named,
                     const Change& change) {
    const auto* name = std::get_if<std::string>(&change.value);
    if (name == nullptr) {
        return "accepted: the name of a fabric, in quotes";
    }
    if (!named.fabrics.contains(*name)) {
        const std::vector<std::string> valid =
            each_of(named.fabrics, [](const auto& entry) { return entry.first; });
        return "found \"" + *name + "\"; accepted: a fabric of the board file or of the library" +
               did_you_mean(*name, valid);
    }
    take_fabric(board, layer, named, *name);
    return "";
}

std::string set_number(Board& board, const DesignPlace& place, const Change& change) {
    const auto* value = std::get_if<double>(&change.value);
    const std::string key = range_of(*place.id.kind);
    const Accepted& range = accepted(key);
    if (value == nullptr || !is_accepted(range, *value)) {
        const auto* text = std::get_if<std::string>(&change.value);
        constexpr int digits = 12;
        const std::string found = value == nullptr ? "the text \"" + *text + "\""
                                                   : shortest(round_significant(*value, digits));
        return "found " + found + "; accepted: " + accepted_text(range);
    }
    if (place.layer != nullptr && place.id.kind->form == DesignForm::scale) {
        scale_weight(board, *place.layer, to_si(key, *value));
    } else {
        set_value(place, to_si(key, *value));
    }
    return "";
}

/// The places whose turn it is, of a board that is being changed.
struct Turn {
    Board& board;
    const MaterialLibrary& named;
    Order order;
    Settables all; ///< of this turn and others
};

/// What is wrong with the change; nothing: it is made, or it is not its turn.
std::string make_change(const Turn& turn, const Change& change) {
    const auto found = std::ranges::find(turn.all, change.path, &Settable::path);
    if (found == turn.all.end()) {
        return turn.order == scales_last ? unknown_path(change.path, turn.all) : "";
    }
    if (found->order != turn.order) {
        return "";
    }
    return found->layer != nullptr ? set_name(turn.board, *found->layer, turn.named, change)
                                   : set_number(turn.board, found->number, change);
}

/// What a set of values can break though each is in its range.
void check_whole(const Board& board, const std::string& place, std::vector<Problem>& problems) {
    for (const auto& [name, material] : board.materials) {
        if (!material.isotropic &&
            !(std::abs(material.nu12) < std::sqrt(material.E1 / material.E2))) {
            problems.push_back({place, "material." + name +
                                           ".nu12: accepted: below sqrt(E1/E2) = " +
                                           number_text(std::sqrt(material.E1 / material.E2))});
        }
    }
    const Accepted& range = accepted("core.thickness_mm");
    for (const double value : board.core ? board.core->thickness.value : std::vector<double>{}) {
        const double shown = from_si("core.thickness_mm", value);
        if (!is_accepted(range, shown)) {
            problems.push_back({place, "core.thickness_mm: becomes " + number_text(shown) +
                                           "; accepted: " + accepted_text(range)});
        }
    }
}

bool moves_lines(Board& board, const std::vector<Change>& changes) {
    const Settables all = settables(board);
    return std::ranges::any_of(changes, [&](const Change& change) {
        return std::ranges::any_of(all, [&](const Settable& value) {
            return value.layer == nullptr && value.path == change.path &&
                   value.number.id.kind->moves_lines;
        });
    });
}

void redraw_with(Board& board, const std::string& place, std::vector<Problem>& problems) {
    try {
        redraw(board);
    } catch (const InputError& error) {
        for (const Problem& problem : error.problems()) {
            problems.push_back({place, "no board of this shape: " + problem.message});
        }
    }
}

} // namespace

std::vector<std::string> design_value_paths(const Board& board) {
    Board copy = board; // the places refer to a board that can be changed
    return names(settables(copy));
}

std::vector<std::string> still_value_paths(const Board& board) {
    Board copy = board;
    Settables all = settables(copy);
    std::erase_if(all, [](const Settable& value) {
        return value.layer == nullptr && value.number.id.kind->moves_lines;
    });
    return names(all);
}

void apply_changes(Board& board, const std::vector<Change>& changes, const MaterialLibrary& named) {
    std::vector<Problem> problems;
    for (const Order order : {fabrics_first, then_values, scales_last}) {
        // anew each time: a new fabric brings its own values
        const Turn turn{board, named, order, settables(board)};
        for (const Change& change : changes) {
            const std::string wrong = make_change(turn, change);
            if (!wrong.empty()) {
                problems.push_back({change.place, "\"" + change.path + "\": " + wrong});
            }
        }
    }
    if (problems.empty() && moves_lines(board, changes)) {
        redraw_with(board, changes.front().place, problems);
    }
    if (!changes.empty() && problems.empty()) {
        check_whole(board, changes.front().place, problems);
    }
    throw_if_any(problems);
}

Board with_values(const Board& board, const SetValues& set, const MaterialLibrary& named) {
    std::vector<Change> changes;
    for (std::size_t i = 0; i < set.ids.size(); ++i) {
        const DesignId& id = set.ids[i];
        const double value = set.values(static_cast<Eigen::Index>(i));
        changes.push_back({path_of(id), from_si(id, value), "a drawn value"});
    }
    Board changed = board;
    apply_changes(changed, changes, named);
    return changed;
}

} // namespace vrid
