#include "solver/shop/cut_pieces.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "mesh/board/lists.hpp"
#include "solver/shop/lay_up_weights.hpp"

namespace vrid {

namespace {

double total(const std::map<std::string, double>& masses) {
    double sum = 0;
    for (const auto& [material, mass] : masses) {
        sum += mass;
    }
    return sum;
}

// Length along the roll, width across it.
void measure(CutPiece& piece) {
    const Extent box = extent(turned(piece.shape, -piece.roll_angle));
    piece.length = box.x[1] - box.x[0];
    piece.width = box.y[1] - box.y[0];
    piece.area = area(piece.shape);
}

void add_pieces(const CutPiece& like, const Region& where, std::vector<CutPiece>& pieces) {
    for (Region& shape : connected_parts(where)) {
        CutPiece piece = like;
        piece.shape = std::move(shape);
        measure(piece);
        pieces.push_back(std::move(piece));
    }
}

void add_layer(const Board& board, const BoardPart& part, std::vector<CutPiece>& pieces) {
    const Layer& layer = board.layers[part.layer];
    CutPiece like;
    like.layer = layer.name;
    like.fabric = layer.kind == LayerKind::fabric;
    like.made_of = like.fabric ? layer.fabric : layer.material;
    like.mirror_image = part.mirror_image;
    like.on_roll =
        !like.mirror_image || !like.fabric || mirror_lies_on_roll(board.fabrics.at(layer.fabric));
    like.turned_over = layer.flip;
    like.roll_angle = part.roll_angle;
    const std::size_t first = pieces.size();
    add_pieces(like, part.where, pieces);
    for (std::size_t i = first; i < pieces.size(); ++i) {
        pieces[i].dry_mass = dry_areal_weight(board, layer) * pieces[i].area;
        pieces[i].resin_mass = resin_areal_weight(board, layer) * pieces[i].area;
    }
}

// Sidewalls and spacers piece by piece; all woods of the core as one blank.
void add_in_core(const Board& board, const std::vector<BoardPart>& parts, PartKind of,
                 std::vector<CutPiece>& pieces) {
    CutPiece like;
    like.of = of;
    like.layer = of == PartKind::core       ? "core"
                 : of == PartKind::sidewall ? "sidewall"
                                            : "tip spacer";
    std::vector<std::string> woods;
    Region where;
    for (const BoardPart& part : parts) {
        if (part.of != of) {
            continue;
        }
        where = united(where, part.where);
        for (const auto& [material, mass] : part_masses(board, part)) {
            if (!contains(woods, material)) {
                woods.push_back(material);
                like.made_of += (like.made_of.empty() ? "" : "+") + material;
            }
        }
    }
    const std::size_t first = pieces.size();
    add_pieces(like, where, pieces);
    for (std::size_t i = first; i < pieces.size(); ++i) {
        for (const BoardPart& part : parts) {
            if (part.of == of) {
                BoardPart share = part;
                share.where = common(part.where, pieces[i].shape);
                pieces[i].dry_mass += total(part_masses(board, share));
            }
        }
    }
}

// The rectangles of one fabric that go onto the roll.
struct Rectangle {
    double length = 0, width = 0;
};

std::vector<Rectangle> rectangles(const std::vector<CutPiece>& pieces, RollUse& use, int boards) {
    std::vector<Rectangle> all;
    for (const CutPiece& piece : pieces) {
        if (!piece.fabric || piece.made_of != use.fabric) {
            continue;
        }
        constexpr double rounding = 1e-9;
        const int strips =
            std::max(1, static_cast<int>(std::ceil(piece.width / use.roll_width - rounding)));
        use.joined += strips > 1 ? boards : 0;
        for (int i = 0; i < strips * boards; ++i) {
            const bool last = i % strips == strips - 1;
            all.push_back({piece.length,
                           last ? piece.width - (strips - 1) * use.roll_width : use.roll_width});
        }
    }
    std::ranges::stable_sort(all, std::greater<>{}, &Rectangle::length);
    return all;
}

// Every rectangle into the first row with room; rows that are full are looked at no more.
double roll_length(const std::vector<Rectangle>& all, double roll_width) {
    constexpr double rounding = 1e-9;
    std::vector<double> room; // left across each open row
    double length = 0;
    double narrowest = roll_width;
    for (const Rectangle& each : all) {
        narrowest = std::min(narrowest, each.width);
    }
    for (const Rectangle& each : all) {
        const auto row =
            std::ranges::find_if(room, [&](double left) { return left + rounding >= each.width; });
        if (row == room.end()) {
            length += each.length;
            room.push_back(roll_width - each.width);
        } else {
            *row -= each.width;
            if (*row + rounding < narrowest) {
                room.erase(row);
            }
        }
    }
    return length;
}

} // namespace

bool mirror_lies_on_roll(const Fabric& fabric) {
    constexpr double same = 1e-9; // [rad]
    return std::ranges::all_of(fabric.plies, [](const FabricPly& ply) {
        return std::abs(std::sin(2 * ply.angle)) < same;
    });
}

std::vector<CutPiece> cut_pieces(const Board& board, const std::vector<BoardPart>& parts) {
    std::vector<CutPiece> pieces;
    bool core_done = false;
    for (const BoardPart& part : parts) {
        if (part.of == PartKind::layer) {
            add_layer(board, part, pieces);
        } else if (board.layers[part.layer].kind == LayerKind::core && !core_done) {
            core_done = true;
            add_in_core(board, parts, PartKind::core, pieces);
            add_in_core(board, parts, PartKind::sidewall, pieces);
            add_in_core(board, parts, PartKind::tip_spacer, pieces);
        }
    }
    return pieces;
}

std::vector<RollUse> roll_uses(const Board& board, const std::vector<CutPiece>& pieces,
                               int boards) {
    std::vector<RollUse> uses;
    std::set<std::string> seen;
    for (const CutPiece& piece : pieces) {
        if (!piece.fabric || !seen.insert(piece.made_of).second) {
            continue;
        }
        RollUse use;
        use.fabric = piece.made_of;
        use.roll_width = board.fabrics.at(use.fabric).roll_width;
        for (const CutPiece& each : pieces) {
            use.area += each.fabric && each.made_of == use.fabric ? each.area * boards : 0.0;
        }
        if (use.roll_width > 0) {
            use.length = roll_length(rectangles(pieces, use, boards), use.roll_width);
            use.waste = 1 - use.area / (use.length * use.roll_width);
        }
        uses.push_back(use);
    }
    return uses;
}

} // namespace vrid
