#include "solver/design/outline_hats.hpp"

#include <cmath>

#include "mesh/board/outline_piece.hpp"
#include "solver/element/quadrature.hpp"

namespace vrid {

namespace {

// Of a piece from its start to t; a cubic of a board's outline is good to 1e-9 so.
double length_to(const OutlinePiece& piece, double t) {
    constexpr int parts = 4;
    constexpr int points = 8;
    static const Rule rule = gauss(points);
    double sum = 0;
    for (int part = 0; part < parts; ++part) {
        for (Index k = 0; k < points; ++k) {
            const double at = t * (part + (1 + rule.point(k)) / 2) / parts;
            sum += rule.weight(k) * t / (2 * parts) * tangent_at(piece, at).norm();
        }
    }
    return sum;
}

Vector2d outward_at(const Planform& planform, const OutlinePlace& place) {
    const Vector2d along = tangent_at(planform, place).normalized();
    return {along.y(), -along.x()};
}

} // namespace

OutlineHats::OutlineHats(const Mesh& mesh, const Planform& planform) : planform_(planform) {
    start_.push_back(0);
    for (const OutlinePiece& piece : planform.outline) {
        start_.push_back(start_.back() + length_to(piece, 1));
    }
    for (const OutlineEdge& edge : mesh.outline) {
        vertices_.push_back(
            mesh.quads[static_cast<std::size_t>(edge.quad)][static_cast<std::size_t>(edge.side)]);
    }
    const OutlineDistance distance(planform);
    const auto count = static_cast<Index>(vertices_.size());
    at_.resize(2, count);
    outward_.resize(2, count);
    for (Index i = 0; i < count; ++i) {
        constexpr double beside = 1e-4; // of a side: which of a corner's two pieces is meant
        const auto vertex = [&](Index of) {
            return mesh.vertices[static_cast<std::size_t>(
                vertices_[static_cast<std::size_t>((of + count) % count)])];
        };
        at_.col(i) = vertex(i);
        arc_.push_back(arc(distance.nearest(vertex(i))));
        const auto normal = [&](Index towards) {
            return outward_at(planform,
                              distance.nearest(vertex(i) + beside * (vertex(towards) - vertex(i))));
        };
        outward_.col(i) = (normal(i - 1) + normal(i + 1)).normalized();
    }
    length_.resize(count);
    for (std::size_t i = 0; i < arc_.size(); ++i) {
        const std::size_t n = arc_.size();
        length_(static_cast<Index>(i)) =
            (way(arc_[(i + n - 1) % n], arc_[i]) + way(arc_[i], arc_[(i + 1) % n])) / 2;
    }
}

double OutlineHats::arc(const OutlinePlace& place) const {
    const auto piece = static_cast<std::size_t>(place.piece);
    return start_[piece] + length_to(planform_.outline[piece], place.t);
}

double OutlineHats::way(double from, double to) const {
    const double whole = start_.back();
    const double way = std::fmod(to - from, whole);
    return way < 0 ? way + whole : way;
}

double OutlineHats::value(std::size_t hat, const OutlinePlace& place) const {
    const std::size_t n = arc_.size();
    const double here = arc(place);
    const double after = way(arc_[hat], here);
    const double next = way(arc_[hat], arc_[(hat + 1) % n]);
    if (after < next) {
        return 1 - after / next;
    }
    const double before = way(here, arc_[hat]);
    const double last = way(arc_[(hat + n - 1) % n], arc_[hat]);
    return before < last ? 1 - before / last : 0;
}

std::array<OutlineHats::Share, 2> OutlineHats::at_place(const OutlinePlace& place) const {
    const auto n = static_cast<Index>(arc_.size());
    const double here = arc(place);
    std::array<Share, 2> shares;
    double nearest = start_.back();
    for (Index i = 0; i < n; ++i) { // the last vertex before the place
        const auto at = static_cast<std::size_t>(i);
        if (const double after = way(arc_[at], here); after < nearest) {
            nearest = after;
            const Index next = (i + 1) % n;
            const double share = after / way(arc_[at], arc_[static_cast<std::size_t>(next)]);
            shares = {Share{i, 1 - share}, Share{next, share}};
        }
    }
    return shares;
}

} // namespace vrid
