#include "solver/design/design_board.hpp"

#include <algorithm>
#include <map>
#include <utility>

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

void add_followers(const DesignPlace& place, std::vector<Follower>& followers) {
    if (place.layer != nullptr && place.layer->kind == LayerKind::core) {
        return; // its strips run along the board
    }
    const bool scale = place.kind->form == DesignForm::scale;
    for (double* number : place.numbers) {
        followers.push_back({number, scale ? *number : 1});
    }
    if (place.material != nullptr && place.material->isotropic) {
        add_what_follows(place, followers);
    }
}

} // namespace

DesignBoard design_board(const Board& board) {
    auto own = std::make_unique<Board>(board);
    std::vector<DesignValue> values;
    std::map<std::string, std::size_t> known;
    for (const DesignPlace& place : design_places(*own)) {
        if (place.kind->moves_numbers) {
            known[place.path] = values.size();
            values.push_back({place.kind, place.path, *value_now(place), {}});
        }
    }
    const auto shared = own_fabrics(*own);
    for (const DesignPlace& place : design_places(*own)) {
        const auto fabric = place.fabric != nullptr ? shared.find(place.name) : shared.end();
        const auto value =
            known.find(fabric != shared.end() ? place.kind->path(fabric->second) : place.path);
        if (value != known.end()) {
            add_followers(place, values[value->second].followers);
        }
    }
    std::erase_if(values, [](const DesignValue& value) { return value.followers.empty(); });
    return {std::move(own), std::move(values)};
}

} // namespace vrid
