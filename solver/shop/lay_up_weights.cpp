#include "solver/shop/lay_up_weights.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "mesh/board/lists.hpp"
#include "solver/design/design_board.hpp"
#include "solver/response/mass.hpp"
#include "solver/shop/core_volume.hpp"

namespace vrid {

namespace {

double density(const Board& board, const std::string& material) {
    return board.materials.at(material).density;
}

// How a part's step is called beside the others of its layer.
std::string word_in_step(const Board& board, const BoardPart& part) {
    const bool own = part.of == PartKind::layer || part.of == PartKind::core;
    return own                           ? board.layers[part.layer].name
           : part.of == PartKind::flange ? ""
                                         : word_of(part.of);
}

void name_step(LayUpStep& step, const std::string& word) {
    if (word.empty() || step.name == word || step.name.ends_with(" + " + word) ||
        step.name.starts_with(word + " + ")) {
        return;
    }
    step.name += (step.name.empty() ? "" : " + ") + word;
}

void add_mass_only(const Board& board, std::vector<LayUpStep>& steps) {
    const MassOnly& extra = board.mass_only;
    if (extra.resin > 0) {
        LayUpStep step{"glue lines", {}};
        step.masses["resin (mass only)"] = extra.resin * area(board.planform);
        steps.push_back(step);
    }
    if (board.stance && extra.inserts_per_foot > 0) {
        LayUpStep step{"inserts", {}};
        step.masses["inserts"] = 2 * extra.inserts_per_foot * extra.insert_mass;
        steps.push_back(step);
    }
}

// What of a part its design values do not change, but for the core's thickness.
struct Measure {
    double area = 0;   // [m2]
    double volume = 0; // in the place of the core [m3]
};

bool in_core(const BoardPart& part) {
    return part.of == PartKind::core || part.of == PartKind::sidewall ||
           part.of == PartKind::tip_spacer;
}

Measure measured(const Board& board, const BoardPart& part) {
    return {area(part.where), in_core(part) ? core_volume(board, part.where) : 0.0};
}

Masses masses_of(const Board& board, const BoardPart& part, const Measure& measure) {
    Masses masses;
    const Layer& layer = board.layers[part.layer];
    const auto add = [&](const std::string& material, double volume) {
        masses[material] += density(board, material) * volume;
    };
    switch (part.of) {
    case PartKind::layer:
        add_layer_mass(board, layer, measure.area, masses);
        break;
    case PartKind::core:
        for (const CoreShare& share : part.shares) {
            add(share.material, share.share * measure.volume);
        }
        break;
    case PartKind::sidewall:
        add(board.sidewall->material, measure.volume);
        break;
    case PartKind::tip_spacer:
        add(board.tip_spacer->material, measure.volume);
        break;
    case PartKind::edge: {
        const std::optional<Flange>& flange = board.edge->flange;
        const double teeth = flange && flange->width > 0 ? flange->thickness : 0.0;
        add(board.edge->material, (layer_thickness(board, layer) + teeth) * measure.area);
        break;
    }
    case PartKind::flange:
        add(board.edge->material,
            board.edge->flange->fill * board.edge->flange->thickness * measure.area);
        break;
    }
    return masses;
}

std::vector<LayUpStep> steps_of(const Board& board, const std::vector<BoardPart>& parts,
                                const std::vector<Measure>& measures) {
    std::vector<LayUpStep> steps;
    std::optional<std::size_t> layer;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (layer != parts[i].layer) {
            steps.emplace_back();
            layer = parts[i].layer;
        }
        name_step(steps.back(), word_in_step(board, parts[i]));
        for (const auto& [material, mass] : masses_of(board, parts[i], measures[i])) {
            steps.back().masses[material] += mass;
        }
    }
    add_mass_only(board, steps);
    double sum = 0;
    for (LayUpStep& step : steps) {
        for (const auto& [material, mass] : step.masses) {
            step.mass += mass;
        }
        sum += step.mass;
        step.sum = sum;
    }
    return steps;
}

// Whether a changed board has the core of the nominal one: its volumes are then known.
bool same_core(const Board& changed, const Board& nominal) {
    const bool inlay = std::ranges::any_of(nominal.layers, &Layer::inlay);
    return !nominal.core ||
           (!inlay && changed.core->thickness.value == nominal.core->thickness.value &&
            (!nominal.core->cross || changed.core->cross->value == nominal.core->cross->value));
}

// With a value that moves lines set: outline, bands and zones are cut anew.
std::vector<LayUpStep> cut_anew(const Board& board, const DesignValue& value, double change) {
    const DesignBoard moved =
        design_board(board, {{value.id}, VectorXd::Constant(1, value.value + change)});
    return lay_up_steps(*moved.board, board_parts(*moved.board));
}

} // namespace

double dry_areal_weight(const Board& board, const Layer& layer) {
    Masses masses;
    add_layer_mass(board, layer, 1, masses);
    double sum = -resin_areal_weight(board, layer);
    for (const auto& [material, mass] : masses) {
        sum += mass;
    }
    return sum;
}

double resin_areal_weight(const Board& board, const Layer& layer) {
    double sum = 0;
    if (layer.kind == LayerKind::fabric) {
        const Fabric& fabric = board.fabrics.at(layer.fabric);
        for (const FabricPly& ply : fabric.plies) {
            sum += ply.ply_material.empty() ? resin_of(board, fabric, ply) : 0.0;
        }
    }
    return sum;
}

std::map<std::string, double> part_masses(const Board& board, const BoardPart& part) {
    return masses_of(board, part, measured(board, part));
}

std::vector<LayUpStep> lay_up_steps(const Board& board, const std::vector<BoardPart>& parts) {
    const std::vector<Measure> measures =
        each_of(parts, [&](const BoardPart& part) { return measured(board, part); });
    return steps_of(board, parts, measures);
}

void add_spread(std::vector<LayUpStep>& steps, const Board& board,
                const std::vector<BoardPart>& parts, const std::vector<Tolerance>& tolerances) {
    const DesignBoard taken = design_board(board);
    const std::vector<Measure> nominal =
        each_of(parts, [&](const BoardPart& part) { return measured(board, part); });
    const auto sums = [&] {
        std::vector<Measure> measures = nominal;
        for (std::size_t i = 0; i < parts.size() && !same_core(*taken.board, board); ++i) {
            measures[i] = measured(*taken.board, parts[i]);
        }
        return steps_of(*taken.board, parts, measures);
    };
    std::vector<double> variance(steps.size(), 0.0);
    for (const Tolerance& tolerance : tolerances) {
        const auto value = std::ranges::find(taken.values, tolerance.value, &DesignValue::id);
        if (value == taken.values.end()) {
            continue;
        }
        const std::vector<double> before =
            each_of(value->followers, [](const Follower& follower) { return *follower.place; });
        const bool lines = value->kind().moves_lines;
        const auto sums_at = [&](double change) {
            if (lines) {
                return cut_anew(board, *value, change);
            }
            for (std::size_t i = 0; i < before.size(); ++i) {
                const Follower& follower = value->followers[i];
                *follower.place = before[i] + follower.slope * change;
            }
            return sums();
        };
        const double change = (lines ? 0.1 : 1e-3) * tolerance.sd; // cuts are to a nanometre
        const std::vector<LayUpStep> more = sums_at(change);
        const std::vector<LayUpStep> less = lines ? steps : sums_at(-change); // cutting is slow
        for (std::size_t i = 0; i < before.size(); ++i) {
            *value->followers[i].place = before[i];
        }
        const bool alike = more.size() == steps.size() && less.size() == steps.size();
        for (std::size_t i = 0; alike && i < steps.size(); ++i) {
            const double slope = (more[i].sum - less[i].sum) / ((lines ? 1 : 2) * change);
            variance[i] += std::pow(slope * tolerance.sd, 2);
        }
    }
    for (std::size_t i = 0; i < steps.size(); ++i) {
        steps[i].spread = std::sqrt(variance[i]);
    }
}

} // namespace vrid
