#include "solver/shop/board_regions.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "mesh/board/lists.hpp"
#include "mesh/board/zones.hpp"
#include "solver/laminate/strip_mix.hpp"

namespace vrid {

namespace {

constexpr double far = 10; // beyond any board [m]

Region between(const std::optional<Range>& x) {
    return rectangle_region(x.value_or(Range{-far, far}), {-far, far});
}

Region ribbon_region(const Ribbon& ribbon) {
    const Eigen::Vector2d along = (ribbon.to - ribbon.from).normalized();
    const Eigen::Vector2d half = Eigen::Vector2d(-along.y(), along.x()) * ribbon.width / 2;
    return polygon_region(
        {ribbon.from - half, ribbon.to - half, ribbon.to + half, ribbon.from + half});
}

// The zone's shape, or its mirror image, on the board.
Region one_zone(const Zone& zone, const Region& board, bool mirror) {
    Region region = board;
    const auto cut = [&](const Region& shape) {
        region = common(region, mirror ? mirrored(shape) : shape);
    };
    if (zone.x || zone.y) {
        cut(rectangle_region(zone.x.value_or(Range{-far, far}), zone.y.value_or(Range{-far, far})));
    }
    if (zone.ribbon) {
        cut(ribbon_region(*zone.ribbon));
    }
    if (!zone.polygon.empty()) {
        cut(polygon_region(zone.polygon));
    }
    if (zone.outline) { // of the board that is there, not of its image
        region = common(
            region, without(inset(board, (*zone.outline)[0]), inset(board, (*zone.outline)[1])));
    }
    return region;
}

// The strips of one half of the core (or of both), and where that half is.
struct Half {
    const std::vector<Strip>& strips;
    Range y;
};

std::vector<Half> halves(const Core& core) {
    if (core.strips_right.empty()) {
        return {{core.strips, {-far, far}}};
    }
    return {{core.strips, {0, far}}, {core.strips_right, {-far, 0}}};
}

// Stations between which the mix is the same, ends far off included.
std::vector<double> strip_breaks(const std::vector<Strip>& strips) {
    std::vector<double> x{-far, far};
    for (const Strip& strip : strips) {
        if (strip.x) {
            x.insert(x.end(), strip.x->begin(), strip.x->end());
        }
    }
    sort_distinct(x);
    return x;
}

void add_smeared(const Half& half, const StripMix& mix, BoardPart cell,
                 std::vector<BoardPart>& parts) {
    const Region all = cell.where;
    std::vector<double> x{-far};
    x.insert(x.end(), mix.breaks.begin(), mix.breaks.end());
    x.push_back(far);
    for (std::size_t k = 0; k + 1 < x.size(); ++k) {
        cell.where = common(all, rectangle_region({x[k], x[k + 1]}, half.y));
        cell.shares.clear();
        for (std::size_t i = 0; i < half.strips.size(); ++i) {
            cell.shares.push_back(
                {strip_material(half.strips, i, (x[k] + x[k + 1]) / 2), mix.share[k][i]});
        }
        if (!cell.where.empty()) {
            parts.push_back(cell);
        }
    }
}

// Both sides' strips of one number and material are one cell.
void add_resolved(const Half& half, BoardPart cell, std::vector<BoardPart>& parts) {
    const Region all = common(cell.where, rectangle_region({-far, far}, half.y));
    if (all.empty()) {
        return;
    }
    const Extent box = extent(all);
    const double reach = std::max(std::abs(box.y[0]), std::abs(box.y[1]));
    const std::vector<double> x = strip_breaks(half.strips);
    std::map<std::string, Region> cells;
    double from = 0;
    for (std::size_t i = 0; from < reach; i = (i + 1) % half.strips.size()) {
        const double to = from + half.strips[i].width;
        const Region strip = common(all, united(rectangle_region({-far, far}, {from, to}),
                                                rectangle_region({-far, far}, {-to, -from})));
        for (std::size_t k = 0; k + 1 < x.size(); ++k) {
            Region& where = cells[strip_material(half.strips, i, (x[k] + x[k + 1]) / 2)];
            where = united(where, common(strip, between(Range{x[k], x[k + 1]})));
        }
        from = to;
    }
    for (const auto& [material, where] : cells) {
        cell.where = where;
        cell.shares = {{material, 1}};
        if (!where.empty()) {
            parts.push_back(cell);
        }
    }
}

void add_core(const Board& board, const Region& outline, const BoardPart& whole,
              std::vector<BoardPart>& parts) {
    BoardPart rest = whole;
    std::vector<BoardPart> beside;
    const auto take = [&](PartKind of, const Region& where) {
        BoardPart part = whole;
        part.of = of;
        part.where = common(rest.where, where);
        rest.where = without(rest.where, where);
        if (!part.where.empty()) {
            beside.push_back(part);
        }
    };
    if (board.sidewall) {
        take(PartKind::sidewall, common(without(outline, inset(outline, board.sidewall->width)),
                                        between(board.sidewall->x)));
    }
    if (board.tip_spacer) {
        take(PartKind::tip_spacer, without(outline, between(board.tip_spacer->x)));
    }
    rest.of = PartKind::core;
    const Core& core = *board.core;
    if (core.resolve) {
        for (const Half& half : halves(core)) {
            add_resolved(half, rest, parts);
        }
    } else if (const CoreMix mix = core_mix(board); mix.right) {
        add_smeared({core.strips, {0, far}}, mix.left, rest, parts);
        add_smeared({core.strips_right, {-far, 0}}, *mix.right, rest, parts);
    } else {
        add_smeared({core.strips, {-far, far}}, mix.left, rest, parts);
    }
    parts.insert(parts.end(), beside.begin(), beside.end());
}

void add_base(const Board& board, const Region& outline, BoardPart base,
              std::vector<BoardPart>& parts) {
    if (!board.edge) {
        parts.push_back(base);
        return;
    }
    const double width = board.edge->width;
    BoardPart edge = base;
    edge.of = PartKind::edge;
    const Region band = common(without(outline, inset(outline, width)), between(board.edge->x));
    edge.where = common(base.where, band);
    base.where = without(base.where, band);
    if (!base.where.empty()) {
        parts.push_back(base);
    }
    parts.push_back(edge);
    if (board.edge->flange && board.edge->flange->width > 0) {
        BoardPart flange = edge;
        flange.of = PartKind::flange;
        flange.where = common(
            without(inset(outline, width), inset(outline, width + board.edge->flange->width)),
            between(board.edge->x));
        parts.push_back(flange);
    }
}

} // namespace

Region zones_region(const std::vector<Zone>& zones, const Region& board, bool mirror) {
    Region region = one_zone(zones.front(), board, mirror);
    for (std::size_t i = 1; i < zones.size(); ++i) {
        region = united(region, one_zone(zones[i], board, mirror));
    }
    return region;
}

std::vector<BoardPart> board_parts(const Board& board) {
    const Region outline = planform_region(board.planform);
    std::vector<BoardPart> parts;
    for (std::size_t i = 0; i < board.layers.size(); ++i) {
        const Layer& layer = board.layers[i];
        for (const ZoneGroup& group : zone_groups(layer)) {
            BoardPart part;
            part.layer = i;
            part.roll_angle = layer.angle + group.turn;
            part.where = zones_region(group.zones, outline, false);
            if (layer.kind == LayerKind::core) {
                add_core(board, outline, part, parts);
            } else if (parts.empty()) {
                add_base(board, outline, part, parts);
            } else {
                parts.push_back(part);
            }
            if (layer.mirror) {
                part.mirror_image = true;
                part.roll_angle = -part.roll_angle;
                part.where = zones_region(group.zones, outline, true);
                parts.push_back(part);
            }
        }
    }
    return parts;
}

} // namespace vrid
