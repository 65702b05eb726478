#include "solver/response/mass.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "mesh/board/board_stations.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/element/quadrature.hpp"
#include "solver/laminate/stacking.hpp"
#include "solver/response/station.hpp"

namespace vrid {

namespace {

double density(const Board& board, const std::string& material) {
    return board.materials.at(material).density;
}

void add_sheet(const Board& board, const std::string& material, double thickness, Masses& masses) {
    masses[material] += density(board, material) * thickness;
}

void add_strips(const Layup<double>& layup, const StackKey& key, double thickness, Masses& masses) {
    for (const CoreShare& one : layup.core_shares[key.back()]) {
        add_sheet(*layup.board, one.material, one.share * thickness, masses);
    }
}

// Mass per area by material of a stack.
Masses stack_masses(const Layup<double>& layup, const StackKey& key, const Eigen::Vector2d& point) {
    const Board& board = *layup.board;
    Masses masses;
    visit_stack(layup, key, core_thickness(layup, point), [&](const StackPart<double>& part) {
        switch (part.kind) {
        case PartKind::layer:
            add_layer_mass(board, *part.item->layer, 1, masses);
            break;
        case PartKind::core:
            add_strips(layup, key, part.thickness, masses);
            break;
        case PartKind::sidewall:
            add_sheet(board, board.sidewall->material, part.thickness, masses);
            break;
        case PartKind::tip_spacer:
            add_sheet(board, board.tip_spacer->material, part.thickness, masses);
            break;
        case PartKind::edge:
            add_sheet(board, board.edge->material, part.thickness, masses);
            break;
        case PartKind::flange:
            masses[board.edge->material] += layup.flange.density * part.thickness;
            break;
        }
    });
    return masses;
}

// A stretch of the board to integrate over.
struct Panel {
    double from, to;
    bool blunt; ///< an end has a vertical tangent: the outline's tip, or that of a parallel of it
};

// Between breaks, no longer than 40 mm. Within the widest band of a tip each band begins with a
// vertical tangent; those stations are breaks too. A panel that ends near the tip, but not at it,
// meets a root that no rule follows: there panels are the shorter the nearer they are, whether or
// not a break lies there, so that the mass stays smooth while one moves.
std::vector<Panel> panels(const Board& board) {
    constexpr double size = 0.04;
    constexpr double least = 1e-5;
    std::vector<double> breaks = station_breaks(board);
    const double tail = breaks.front();
    const double nose = breaks.back();
    std::vector<double> bands = band_distances(board);
    bands.push_back(0);
    for (const double band : bands) {
        breaks.insert(breaks.end(), {tail + band, nose - band});
    }
    for (double far = size; far > least; far /= 8) {
        breaks.insert(breaks.end(), {tail + far, nose - far});
    }
    breaks = board_stations(board.planform, std::move(breaks));
    const double reach = size - same_place + *std::ranges::max_element(bands);
    std::vector<Panel> all;
    for (std::size_t i = 1; i < breaks.size(); ++i) {
        const double length = breaks[i] - breaks[i - 1];
        const bool blunt = breaks[i - 1] <= tail + reach || breaks[i] >= nose - reach;
        const int count = std::max(1, static_cast<int>(std::ceil(length / size)));
        for (int k = 0; k < count; ++k) {
            all.push_back({breaks[i - 1] + length * k / count,
                           breaks[i - 1] + length * (k + 1) / count, blunt});
        }
    }
    return all;
}

// A strip of the board one layup wide, at one station.
struct Patch {
    double x = 0, y = 0, area = 0; // [m, m, m2]
    StackKey key;
};

// The patches of a station that stands for `step` of the board's length. Where the core's thickness
// is linear across, two points tell mass and moment exactly.
void add_patches(const Layup<double>& layup, double station, double step,
                 std::vector<Patch>& patches) {
    constexpr double whole = 10; // wider than any board: cut at the kinks only [m]
    const bool slopes = layup.board->core && layup.board->core->cross;
    const Rule across = gauss(slopes ? 2 : 1);
    for (const StationPart& part :
         thickness_slices(layup, station, station_parts(layup, station), whole)) {
        const double half = (part.y_to - part.y_from) / 2;
        for (Eigen::Index k = 0; k < across.point.size(); ++k) {
            patches.push_back({station, part.y_from + half * (1 + across.point(k)),
                               step * half * across.weight(k), part.key});
        }
    }
}

// Patches that make up the board.
std::vector<Patch> make_patches(const Layup<double>& layup) {
    std::vector<Patch> patches;
    const Rule smooth = gauss(3);
    const Rule fine = gauss(10);
    for (const Panel& panel : panels(*layup.board)) {
        const Rule& rule = panel.blunt ? fine : smooth;
        const double length = panel.to - panel.from;
        for (Eigen::Index k = 0; k < rule.point.size(); ++k) {
            // x = 3 s^2 - 2 s^3 takes the square root out of a blunt end
            const double s = (1 + rule.point(k)) / 2;
            const double share = panel.blunt ? s * s * (3 - 2 * s) : s;
            const double slope = panel.blunt ? 6 * s * (1 - s) : 1;
            const double station = panel.from + length * share;
            const double step = length * slope * rule.weight(k) / 2;
            add_patches(layup, station, step, patches);
        }
    }
    return patches;
}

MassReport patches_mass(const Layup<double>& layup, const std::vector<Patch>& patches) {
    const Board& board = *layup.board;
    Masses masses;
    double moment_x = 0;
    double moment_y = 0;
    for (const Patch& patch : patches) {
        for (const auto& [name, density] : stack_masses(layup, patch.key, {patch.x, patch.y})) {
            const double mass = patch.area * density;
            masses[name] += mass;
            moment_x += mass * patch.x;
            moment_y += mass * patch.y;
        }
    }
    const MassOnly& extra = board.mass_only;
    if (extra.resin > 0) {
        const double mass = extra.resin * area(board.planform);
        masses["resin (mass only)"] += mass;
        moment_x += mass * centroid(board.planform).x();
        moment_y += mass * centroid(board.planform).y();
    }
    if (board.stance && extra.inserts_per_foot > 0) {
        const double mass = extra.inserts_per_foot * extra.insert_mass;
        masses["inserts"] += 2 * mass;
        moment_x += mass * (board.stance->front() + board.stance->rear());
    }
    MassReport report;
    for (const auto& [name, mass] : masses) {
        report.mass += mass;
        report.by_material.push_back({name, mass});
    }
    const auto place = [&](double moment) {
        constexpr double rounding = 1e-12; // [m] of the sum: nearer to an axis is on it
        const double at = moment / report.mass;
        return std::abs(at) < rounding ? 0 : at;
    };
    report.x = place(moment_x);
    report.y = place(moment_y);
    std::ranges::stable_sort(report.by_material, std::greater<>{}, &MassItem::mass);
    return report;
}

} // namespace

double resin_of(const Board& board, const Fabric& fabric, const FabricPly& ply) {
    const double fraction = fabric.fibre_volume_fraction;
    return ply.areal_weight / density(board, ply.fibre) * (1 - fraction) / fraction *
           density(board, fabric.resin);
}

void add_layer_mass(const Board& board, const Layer& layer, double area, Masses& masses) {
    if (layer.kind == LayerKind::material) {
        masses[layer.material] += density(board, layer.material) * layer.thickness * area;
        return;
    }
    const Fabric& fabric = board.fabrics.at(layer.fabric);
    for (const FabricPly& ply : fabric.plies) {
        if (!ply.ply_material.empty()) {
            masses[ply.ply_material] += density(board, ply.ply_material) * ply.ply_thickness * area;
        } else {
            masses[ply.fibre] += ply.areal_weight * area;
            masses[fabric.resin] += resin_of(board, fabric, ply) * area;
        }
    }
}

MassReport board_mass(const Board& board) {
    const Layup<double> layup = make_layup<double>(board);
    return patches_mass(layup, make_patches(layup));
}

Quantity mass_quantity(const MassReport& report) {
    constexpr double relative_error = 1e-4; // promised by board_mass
    return {report.mass, report.mass * relative_error, Unit::mass};
}

SectionWeights mass_weights(const Board& board) {
    const Layup<double> layup = make_layup<double>(board);
    const std::vector<Patch> patches = make_patches(layup);
    const MassReport whole = patches_mass(layup, patches);
    SectionWeights weights;
    std::map<StackKey, int> known;
    for (const Patch& patch : patches) {
        const auto [found, fresh] =
            known.try_emplace(patch.key, static_cast<int>(weights.stacks.size()));
        if (fresh) {
            weights.stacks.push_back(patch.key);
        }
        weights.places.push_back({found->second, patch.x, patch.area, patch.y});
    }
    const auto count = static_cast<Eigen::Index>(patches.size());
    weights.weight = Eigen::MatrixXd::Zero(section_terms * count, 3);
    for (Eigen::Index i = 0; i < count; ++i) {
        const Patch& patch = patches[static_cast<std::size_t>(i)];
        const Eigen::Index row = section_terms * i + first_inertia_term; // I0
        weights.weight(row, 0) = patch.area;
        weights.weight(row, 1) = patch.area * (patch.x - whole.x) / whole.mass;
        weights.weight(row, 2) = patch.area * (patch.y - whole.y) / whole.mass;
    }
    return weights;
}

} // namespace vrid
