#include "mirror_image.hpp"

#include <algorithm>
#include <numbers>

namespace vrid::tests {

namespace {

Eigen::Vector2d image(const Eigen::Vector2d& p, MirrorIn axis) {
    return axis == MirrorIn::x ? Eigen::Vector2d(-p.x(), p.y()) : Eigen::Vector2d(p.x(), -p.y());
}

void turn_round(std::optional<Range>& range) {
    if (range) {
        range = Range{-(*range)[1], -(*range)[0]};
    }
}

// Backwards round the image, so that it is counter-clockwise again.
OutlinePiece image(const OutlinePiece& piece, bool corner_at_end, MirrorIn axis) {
    OutlinePiece found = piece;
    for (std::size_t k = 0; k < 4; ++k) {
        found.control[k] = image(piece.control[3 - k], axis);
    }
    found.centre = image(piece.centre, axis);
    const double turn = axis == MirrorIn::x ? std::numbers::pi : 0;
    found.angle_from = turn - piece.angle_to;
    found.angle_to = turn - piece.angle_from;
    found.corner_at_start = corner_at_end;
    return found;
}

void mirror_outline(Planform& planform, MirrorIn axis) {
    const std::vector<OutlinePiece> before = planform.outline;
    const std::size_t n = before.size();
    for (std::size_t i = 0; i < n; ++i) {
        planform.outline[n - 1 - i] = image(before[i], before[(i + 1) % n].corner_at_start, axis);
    }
    planform.shape.reset();
    if (axis == MirrorIn::y) {
        std::swap(planform.edge_contact[0], planform.edge_contact[1]);
    } else {
        for (auto& own : planform.edge_contact) {
            turn_round(own);
        }
    }
}

void mirror_zone(Zone& zone, MirrorIn axis) {
    turn_round(axis == MirrorIn::x ? zone.x : zone.y);
    if (zone.ribbon) {
        zone.ribbon->from = image(zone.ribbon->from, axis);
        zone.ribbon->to = image(zone.ribbon->to, axis);
    }
    for (Eigen::Vector2d& corner : zone.polygon) {
        corner = image(corner, axis);
    }
}

void mirror_layer(Layer& layer, MirrorIn axis) {
    layer.angle = -layer.angle;
    mirror_zone(layer.zone, axis);
    for (Zone& zone : layer.more_zones) {
        mirror_zone(zone, axis);
    }
}

void turn_round(Profile& profile) {
    std::reverse(profile.x.begin(), profile.x.end());
    std::reverse(profile.value.begin(), profile.value.end());
    for (double& x : profile.x) {
        x = -x;
    }
}

void turn_stations_round(Board& board) {
    if (board.core) {
        turn_round(board.core->thickness);
        for (auto* strips : {&board.core->strips, &board.core->strips_right}) {
            for (Strip& strip : *strips) {
                turn_round(strip.x);
            }
        }
    }
    if (board.tip_spacer) {
        board.tip_spacer->x = {-board.tip_spacer->x[1], -board.tip_spacer->x[0]};
    }
    if (board.edge) {
        turn_round(board.edge->x);
    }
    if (board.sidewall) {
        turn_round(board.sidewall->x);
    }
    if (board.stance) {
        board.stance->setback = -board.stance->setback;
    }
}

} // namespace

Board mirror_image(Board board, MirrorIn axis) {
    mirror_outline(board.planform, axis);
    for (auto& [name, fabric] : board.fabrics) {
        for (FabricPly& ply : fabric.plies) {
            ply.angle = -ply.angle;
        }
    }
    for (Layer& layer : board.layers) {
        mirror_layer(layer, axis);
    }
    if (axis == MirrorIn::x) {
        turn_stations_round(board);
    } else if (board.core) {
        if (!board.core->strips_right.empty()) {
            std::swap(board.core->strips, board.core->strips_right);
        }
        if (board.core->cross) {
            turn_round(*board.core->cross);
        }
    }
    return board;
}

Mesh mirror_image(const Mesh& mesh, MirrorIn axis) {
    constexpr std::array<int, 4> vertex{1, 0, 3, 2}; // xi becomes -xi
    constexpr std::array<std::size_t, 4> side{0, 3, 2, 1};
    Mesh found = mesh;
    for (Eigen::Vector2d& p : found.vertices) {
        p = image(p, axis);
    }
    const int k = mesh.geometry_degree + 1;
    for (std::size_t q = 0; q < mesh.quads.size(); ++q) {
        for (std::size_t i = 0; i < 4; ++i) {
            found.quads[q][i] = mesh.quads[q][static_cast<std::size_t>(vertex[i])];
            found.quad_edges[q][i] = mesh.quad_edges[q][side[i]];
        }
        for (int j = 0; j < k; ++j) {
            for (int i = 0; i < k; ++i) {
                found.geometry[q].col(j * k + i) =
                    image(mesh.geometry[q].col(j * k + k - 1 - i), axis);
            }
        }
    }
    std::reverse(found.outline.begin(), found.outline.end());
    for (OutlineEdge& edge : found.outline) {
        edge.side = static_cast<int>(side[static_cast<std::size_t>(edge.side)]);
    }
    for (StationLine& line : found.lines) {
        if (axis == MirrorIn::x) {
            line.x = -line.x;
        } else {
            std::reverse(line.edges.begin(), line.edges.end());
        }
    }
    if (axis == MirrorIn::x) {
        std::reverse(found.lines.begin(), found.lines.end());
    }
    return found;
}

} // namespace vrid::tests
