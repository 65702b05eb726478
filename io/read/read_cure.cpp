#include "io/read/read_cure.hpp"

#include <algorithm>

namespace vrid {

Cure read_cure(TableReader table) {
    Cure cure;
    cure.stress_free = table.number("stress_free_C");
    cure.room = table.number_or_default("room_C");
    cure.cold = table.number_or_default("cold_C");
    cure.moisture = table.number_or_default("moisture_percent");
    if (table.has("mould_z_mm")) {
        Profile mould;
        for (const Eigen::Vector2d& station : table.stations("mould_z_mm")) {
            mould.x.push_back(station.x());
            mould.value.push_back(station.y());
        }
        cure.mould = std::move(mould);
    }
    table.know({"mould_z_mm"});
    table.finish();
    return cure;
}

void check_expansions(const Board& board, TableReader& root, const Stock& stock) {
    for (const auto& [name, material] : board.materials) {
        const auto missing = stock.no_expansion.find(name);
        if (missing == stock.no_expansion.end()) {
            continue;
        }
        const std::string keys = material.isotropic ? "alpha1_1e6K" : "alpha1_1e6K and alpha2_1e6K";
        const bool here = !missing->second.empty();
        note_problem(root.reading(), here ? missing->second : root.place("cure"),
                     (here ? "material." + name : "cure: material " + name + " of the library") +
                         " has no expansion, which [cure] needs of every material in the board; "
                         "accepted: " +
                         keys + (here ? "" : " in a [material." + name + "] of this file"));
    }
    const bool shrinks = std::ranges::any_of(board.materials, [](const auto& entry) {
        return entry.second.shrink1 != 0 || entry.second.shrink2 != 0;
    });
    constexpr double gelled_cold = 40; // [deg C]: what shrink cannot stand for
    if (shrinks && board.cure->stress_free > gelled_cold) {
        note_warning(
            root.reading(), root.place("cure"),
            "cure: a material has a shrink beside stress_free_C: 0.2 % of an epoxy does as "
            "much as 35 K, so a stress_free_C that was fitted holds it already");
    }
    const bool swells = std::ranges::any_of(board.materials, [](const auto& entry) {
        return entry.second.swell1 != 0 || entry.second.swell2 != 0;
    });
    if (board.cure->moisture != 0 && !swells) {
        note_warning(root.reading(), root.place("cure"),
                     "cure: moisture_percent changes nothing, no material of the board swells");
    }
}

} // namespace vrid
