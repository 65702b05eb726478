#include "io/write/layup_json.hpp"

#include <algorithm>

#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/zones.hpp"
#include "solver/laminate/micromechanics.hpp"

namespace vrid {
namespace {

constexpr int layup_digits = 4;

double in(const char* key, double si) {
    return round_significant(from_si(key, si), layup_digits) + 0.0; // no minus zero
}

std::string mm_text(double metres) {
    return csv_cell(in("x_mm", metres));
}

std::string between(const std::string& what, const Range& range) {
    return what + " " + mm_text(range[0]) + " to " + mm_text(range[1]);
}

std::string zone_words(const Zone& zone, bool mirrored) {
    if (zone.ribbon) {
        const Ribbon& ribbon = *zone.ribbon;
        return "ribbon " + mm_text(ribbon.width) + " wide, from (" + mm_text(ribbon.from.x()) +
               ", " + mm_text(ribbon.from.y()) + ") to (" + mm_text(ribbon.to.x()) + ", " +
               mm_text(ribbon.to.y()) + ")";
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
    std::string all;
    for (const Strip& strip : strips) {
        all += (all.empty() ? "" : ", ") + strip.material + " " + mm_text(strip.width);
    }
    return all + " mm";
}

std::string core_words(const Core& core) {
    return core.strips_right.empty()
               ? strip_words(core.strips)
               : "left " + strip_words(core.strips) + "; right " + strip_words(core.strips_right);
}

/// Adds the plies as they lie in the board, with what they weigh and how thick they are.
void add_plies(Json& one, const Board& board, const Layer& layer, const Fabric& fabric) {
    double thickness = 0, resin = 0;
    std::vector<Json> plies;
    for (const FabricPly& ply : fabric.plies) {
        const double angle = layer.angle + (layer.flip ? -ply.angle : ply.angle);
        Json laid{{"of", ply.fibre.empty() ? ply.ply_material : ply.fibre},
                  {"angle_deg", in("x_deg", angle)}};
        double thick = ply.ply_thickness;
        if (ply.fibre.empty()) {
            laid["mm"] = in("x_mm", thick);
        } else {
            const double fraction = fabric.fibre_volume_fraction;
            thick =
                ply_thickness(ply.areal_weight, board.materials.at(ply.fibre).density, fraction);
            resin += thick * (1 - fraction) * board.materials.at(fabric.resin).density;
            laid["gsm"] = in("areal_weight_gsm", ply.areal_weight);
        }
        thickness += thick;
        plies.push_back(laid);
    }
    if (layer.flip) {
        std::reverse(plies.begin(), plies.end());
    }
    one["thickness_mm"] = in("x_mm", thickness);
    one["plies"] = plies;
    if (resin > 0) {
        one["resin"] = fabric.resin;
        one["resin_gsm"] = in("areal_weight_gsm", resin);
    }
}

Json layer_json(const Board& board, const Layer& layer) {
    Json one{{"layer", layer.name},
             {"of", layer.material},
             {"where", where(layer)},
             {"thickness_mm", Json()},
             {"plies", Json::array()}};
    switch (layer.kind) {
    case LayerKind::material:
        one["thickness_mm"] = in("x_mm", layer.thickness);
        break;
    case LayerKind::core:
        one["of"] = core_words(*board.core);
        break;
    case LayerKind::fabric:
        one["of"] = layer.fabric;
        add_plies(one, board, layer, board.fabrics.at(layer.fabric));
        break;
    }
    return one;
}

Json part(const char* name, const std::string& material, const std::string& where) {
    return {{"layer", name},
            {"of", material},
            {"where", where},
            {"thickness_mm", Json()},
            {"plies", Json::array()}};
}

std::string band(double width, const std::optional<Range>& x) {
    return mm_text(width) + " wide along the outline" + (x ? ", " + between("x", *x) : "");
}

} // namespace

Json layup_json(const Board& board) {
    Json all = Json::array();
    for (const Layer& layer : board.layers) {
        all.push_back(layer_json(board, layer));
    }
    if (board.edge) {
        all.push_back(part("edge", board.edge->material, band(board.edge->width, board.edge->x)));
    }
    if (board.sidewall) {
        all.push_back(part("sidewall", board.sidewall->material,
                           band(board.sidewall->width, board.sidewall->x)));
    }
    if (board.tip_spacer) {
        all.push_back(part("tip spacers", board.tip_spacer->material,
                           "beyond x = " + mm_text(board.tip_spacer->x[0]) + " and " +
                               mm_text(board.tip_spacer->x[1])));
    }
    return all;
}

} // namespace vrid
