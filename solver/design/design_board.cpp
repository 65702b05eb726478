#include "solver/design/design_board.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "solver/design/line_kinds.hpp"

namespace vrid {
namespace {

// Gives every layer its fabric to itself. Returns what each fabric's name was.
std::map<std::string, std::string> own_fabrics(Board& board) {
    std::map<std::string, std::string> shared;
    std::map<std::string, Fabric> all;
    for (Layer& layer : board.layers) {
        if (layer.kind == LayerKind::fabric) {
            const std::string name = layer.fabric + " of " + layer.name;
            const std::string was = std::exchange(layer.fabric, name);
            all.insert_or_assign(name, board.fabrics.at(was));
            shared[name] = was;
        }
    }
    board.fabrics = std::move(all);
    return shared;
}

// What follows from a constant of an isotropic material: `complete`, differentiated.
void add_what_follows(const DesignPlace& place, std::vector<Follower>& followers) {
    Material& material = *place.material;
    for (const auto& [along, across] : {std::pair{&Material::alpha1, &Material::alpha2},
                                        std::pair{&Material::shrink1, &Material::shrink2},
                                        std::pair{&Material::swell1, &Material::swell2}}) {
        if (place.numbers.front() == &(material.*along)) {
            followers.push_back({&(material.*across), 1});
        }
    }
    const bool modulus = place.numbers.front() == &material.E1;
    if (!modulus && place.numbers.front() != &material.nu12) {
        return;
    }
    const double turned = 1 / (2 * (1 + material.nu12)); // G / E
    if (modulus) {
        followers.push_back({&material.E2, 1});
    }
    for (double* G : {&material.G12, &material.G13, &material.G23}) {
        followers.push_back({G, modulus ? turned : -2 * material.E1 * turned * turned});
    }
}

bool is_scale(const DesignValue& value) {
    return value.kind().form == DesignForm::scale;
}

// Each number that a value stands for, and its derivative by it. A scale that is set multiplies
// what others set: they move the number by that factor.
void add_followers(const DesignPlace& place, double core_scale, DesignValue& value) {
    if (place.layer != nullptr && place.layer->kind == LayerKind::core) {
        return; // its strips run along the board
    }
    if (place.id.kind->moves_lines) {
        return; // no number of a section follows it: shape_slopes
    }
    const bool station = place.id.kind->form == DesignForm::station;
    for (double* number : place.numbers) {
        value.followers.push_back({number, is_scale(value) ? *number / value.value
                                           : station       ? core_scale
                                                           : 1});
    }
    if (place.material != nullptr && place.material->isotropic) {
        add_what_follows(place, value.followers);
    }
}

// The values of a board and where they stand in it; places are those of the board in which every
// layer has its fabric to itself.
struct Placed {
    std::vector<DesignValue> values;
    std::vector<std::pair<DesignPlace, std::size_t>> places; // with the number of their value
};

// The value with this id, in its turn; there are a hundred or two.
std::size_t number_of(const std::vector<DesignValue>& values, const DesignId& id) {
    return static_cast<std::size_t>(std::ranges::find(values, id, &DesignValue::id) -
                                    values.begin());
}

Placed placed_values(Board& board) {
    Placed all;
    for (const DesignPlace& place : design_places(board)) {
        if (place.id.kind->moves_numbers && (board.cure || !place.id.kind->of_cure)) {
            all.values.push_back({place.id, *value_now(place), {}});
        }
    }
    const auto shared = own_fabrics(board);
    for (DesignPlace& place : design_places(board)) {
        DesignId id = place.id;
        if (place.fabric != nullptr) {
            id.part = shared.at(id.part);
        }
        if (const std::size_t number = number_of(all.values, id); number < all.values.size()) {
            all.places.emplace_back(std::move(place), number);
        }
    }
    return all;
}

void set_all(const SetValues& set, Placed& placed) {
    for (const bool scales : {false, true}) {
        for (std::size_t i = 0; i < set.ids.size(); ++i) {
            for (const auto& [place, number] : placed.places) {
                DesignValue& value = placed.values[number];
                if (value.id == set.ids[i] && is_scale(value) == scales) {
                    value.value = set.values(static_cast<Eigen::Index>(i));
                    set_value(place, value.value);
                }
            }
        }
    }
}

} // namespace

std::vector<LineValue> lines_among(const std::vector<DesignId>& ids) {
    std::vector<LineValue> lines;
    for (const DesignId& id : ids) {
        if (id.kind->moves_lines) {
            lines.push_back({id, {}});
        }
    }
    return lines;
}

DesignBoard design_board(const Board& board) {
    return design_board(board, {});
}

DesignBoard design_board(const Board& board, const SetValues& set) {
    auto own = std::make_unique<Board>(board);
    Placed placed = placed_values(*own);
    set_all(set, placed);
    if (!lines_among(set.ids).empty()) {
        redraw(*own);
    }
    double core_scale = 1;
    for (const DesignValue& value : placed.values) {
        core_scale *= value.kind().property == DesignProperty::core_scale ? value.value : 1;
    }
    for (const auto& [place, number] : placed.places) {
        add_followers(place, core_scale, placed.values[number]);
    }
    std::erase_if(placed.values, [](const DesignValue& value) {
        return value.followers.empty() && !value.kind().moves_lines;
    });
    return {std::move(own), std::move(placed.values)};
}

double workshop_step(const DesignValue& value) {
    return value.kind().step > 0 ? value.kind().step : 0.1 * std::abs(value.value);
}

} // namespace vrid
