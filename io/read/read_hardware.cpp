#include "io/read/read_tables.hpp"

#include <algorithm>
#include <limits>

#include "io/materials/read_material.hpp"

namespace vrid {

namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

Edge read_edge(TableReader table, const Stock& stock) {
    Edge edge;
    edge.material = read_name(table, "material", stock.materials, "material");
    edge.width = table.number("width_mm");
    edge.x = table.range_if("x_mm");
    if (auto flange = table.table_if("flange")) {
        edge.flange = Flange{flange->number("width_mm"), flange->number("thickness_mm"),
                             flange->number_or_default("fill")};
        flange->finish();
    }
    table.finish();
    return edge;
}

Sidewall read_sidewall(TableReader table, const Stock& stock) {
    Sidewall sidewall;
    sidewall.material = read_name(table, "material", stock.materials, "material");
    sidewall.width = table.number("width_mm");
    sidewall.x = table.range_if("x_mm");
    table.finish();
    return sidewall;
}

std::optional<TipSpacer> read_tip_spacer(TableReader table, const Stock& stock) {
    TipSpacer spacer;
    spacer.material = read_name(table, "material", stock.materials, "material");
    if (!table.has("x_mm")) {
        table.wrong("x_mm", "the two stations [tail, nose] beyond which the spacer begins");
    }
    spacer.x = table.range_if("x_mm").value_or(Range{nothing, nothing});
    table.finish();
    return spacer;
}

Stance read_stance(TableReader table) {
    Stance stance;
    stance.width = table.number("width_mm");
    stance.setback = table.number_or_default("setback_mm");
    stance.foot_length = table.number("foot_length_mm");
    stance.foot_width = table.number("foot_width_mm");
    table.finish();
    return stance;
}

MassOnly read_mass_only(TableReader table) {
    MassOnly mass;
    mass.resin = table.number_or_default("resin_gsm");
    mass.inserts_per_foot = table.whole_number_or("inserts_per_foot", 0);
    mass.insert_mass = table.number_or("insert_mass_g", 0);
    if (table.has("insert_mass_g") && !table.has("inserts_per_foot")) {
        table.problem("insert_mass_g", "inserts_per_foot and insert_mass_g must be given together");
    }
    table.finish();
    return mass;
}

Profile read_rest_shape(TableReader table) {
    Profile shape;
    for (const Eigen::Vector2d& station : table.stations("z_mm")) {
        shape.x.push_back(station.x());
        shape.value.push_back(station.y());
    }
    table.finish();
    return shape;
}

} // namespace

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

void read_hardware(Board& board, TableReader& root, const Stock& stock) {
    if (auto table = root.table_if("tip_spacer")) {
        board.tip_spacer = read_tip_spacer(*std::move(table), stock);
    }
    if (auto table = root.table_if("edge")) {
        board.edge = read_edge(*std::move(table), stock);
    }
    if (auto table = root.table_if("sidewall")) {
        board.sidewall = read_sidewall(*std::move(table), stock);
    }
    if (auto table = root.table_if("stance")) {
        board.stance = read_stance(*std::move(table));
    }
    if (auto table = root.table_if("mass_only")) {
        board.mass_only = read_mass_only(*std::move(table));
    }
    if (auto table = root.table_if("rest_shape")) {
        board.rest_shape = read_rest_shape(*std::move(table));
    }
}

} // namespace vrid
