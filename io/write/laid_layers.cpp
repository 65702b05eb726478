#include "io/write/drawing.hpp"

#include <algorithm>

#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/zones.hpp"
#include "solver/laminate/micromechanics.hpp"

namespace vrid {
namespace {

constexpr int laid_digits = 4;

double in(const char* key, double si) {
    return round_significant(from_si(key, si), laid_digits) + 0.0; // no minus zero
}

std::string laid_mm(double metres) {
    return csv_cell(in("x_mm", metres));
}

std::string between(const std::string& what, const Range& range) {
    return what + " " + laid_mm(range[0]) + " to " + laid_mm(range[1]);
}

std::string zone_words(const Zone& zone, bool mirrored) {
    if (zone.ribbon) {
        const Ribbon& ribbon = *zone.ribbon;
        return "ribbon " + laid_mm(ribbon.width) + " wide, from (" + laid_mm(ribbon.from.x()) +
               ", " + laid_mm(ribbon.from.y()) + ") to (" + laid_mm(ribbon.to.x()) + ", " +
               laid_mm(ribbon.to.y()) + ")";
    }
    std::string all = zone.polygon.empty() ? "" : "a polygon";
    const auto add = [&](const std::string& words) { all += (all.empty() ? "" : ", ") + words; };
    if (zone.x) {
        add(between("x", *zone.x));
    }
    if (zone.y) {
        add(between(mirrored ? "|y|" : "y", *zone.y));
    }
    if (zone.outline) {
        add(between("from the outline", *zone.outline));
    }
    return all;
}

std::string where(const Layer& layer) {
    std::string all;
    bool shown = false; // that there is a mirror image
    for (const Zone& zone : zones_of(layer)) {
        if (is_everywhere(zone)) {
            return "everywhere";
        }
        const bool signs = zone.y && (*zone.y)[0] >= 0 && !zone.ribbon && zone.polygon.empty();
        shown = shown || (layer.mirror && signs);
        all += (all.empty() ? "" : "; ") + zone_words(zone, layer.mirror && signs);
    }
    return all + (layer.mirror && !shown ? ", and mirrored" : "");
}

std::string strip_words(const std::vector<Strip>& strips) {
    const auto words = [](const Strip& strip) {
        return strip.material + " " + laid_mm(strip.width);
    };
    return joined(strips, ", ", words) + " mm";
}

std::string core_words(const Core& core) {
    return core.strips_right.empty()
               ? strip_words(core.strips)
               : "left " + strip_words(core.strips) + "; right " + strip_words(core.strips_right);
}

/// Adds the plies as they lie in the board, with what they weigh and how thick they are.
void add_plies(LaidLayer& laid, const Board& board, const Layer& layer, const Fabric& fabric) {
    double thickness = 0, resin = 0;
    for (const FabricPly& ply : fabric.plies) {
        const double angle = layer.angle + (layer.flip ? -ply.angle : ply.angle);
        double thick = ply.ply_thickness;
        if (ply.fibre.empty()) {
            laid.plies.push_back({ply.ply_material, in("x_deg", angle), {}, in("x_mm", thick)});
        } else {
            const double fraction = fabric.fibre_volume_fraction;
            thick =
                ply_thickness(ply.areal_weight, board.materials.at(ply.fibre).density, fraction);
            resin += thick * (1 - fraction) * board.materials.at(fabric.resin).density;
            laid.plies.push_back(
                {ply.fibre, in("x_deg", angle), in("areal_weight_gsm", ply.areal_weight)});
        }
        thickness += thick;
    }
    if (layer.flip) {
        std::ranges::reverse(laid.plies);
    }
    laid.thickness_mm = in("x_mm", thickness);
    if (resin > 0) {
        laid.resin = fabric.resin;
        laid.resin_gsm = in("areal_weight_gsm", resin);
    }
}

LaidLayer part(const std::string& name, const std::string& of, const std::string& where) {
    return {name, of, where};
}

LaidLayer laid_layer(const Board& board, const Layer& layer) {
    LaidLayer laid = part(layer.name, layer.material, where(layer));
    switch (layer.kind) {
    case LayerKind::material:
        laid.thickness_mm = in("x_mm", layer.thickness);
        break;
    case LayerKind::core:
        laid.of = core_words(*board.core);
        break;
    case LayerKind::fabric:
        laid.of = layer.fabric;
        add_plies(laid, board, layer, board.fabrics.at(layer.fabric));
        break;
    }
    return laid;
}

std::string band(double width, const std::optional<Range>& x) {
    return laid_mm(width) + " wide along the outline" + (x ? ", " + between("x", *x) : "");
}

} // namespace

std::string amount_text(const LaidPly& ply) {
    return csv_cell(ply.gsm ? *ply.gsm : ply.mm.value_or(0)) + (ply.gsm ? "" : " mm");
}

std::vector<LaidLayer> laid_layers(const Board& board) {
    std::vector<LaidLayer> all =
        each_of(board.layers, [&](const Layer& layer) { return laid_layer(board, layer); });
    if (board.edge) {
        all.push_back(part("edge", board.edge->material, band(board.edge->width, board.edge->x)));
    }
    if (board.sidewall) {
        all.push_back(part("sidewall", board.sidewall->material,
                           band(board.sidewall->width, board.sidewall->x)));
    }
    if (board.tip_spacer) {
        all.push_back(part("tip spacers", board.tip_spacer->material,
                           "beyond x = " + laid_mm(board.tip_spacer->x[0]) + " and " +
                               laid_mm(board.tip_spacer->x[1])));
    }
    return all;
}

} // namespace vrid
