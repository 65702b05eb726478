#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "mesh/board/outline_piece.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

namespace {

constexpr double sag = 2e-5;       // of the chords [m]: about 40 mm long on a sidecut, 4 on a tip
constexpr double cell_size = 0.03; // [m]: some ten chords a cell

} // namespace

double OutlineDistance::Chord::share(const Vector2d& p) const {
    return std::clamp((p - a).dot(d) * inverse, 0.0, 1.0);
}

double OutlineDistance::Chord::squared_distance(const Vector2d& p) const {
    return (a + share(p) * d - p).squaredNorm();
}

OutlineDistance::OutlineDistance(const Planform& planform) : pieces_(planform.outline) {
    Vector2d low = Vector2d::Constant(std::numeric_limits<double>::infinity());
    Vector2d high = -low;
    for (std::size_t k = 0; k < pieces_.size(); ++k) {
        const std::vector<double> t = flat_parameters(pieces_[k], sag);
        for (std::size_t i = 0; i + 1 < t.size(); ++i) {
            const Vector2d a = point_at(pieces_[k], t[i]);
            const Vector2d d = point_at(pieces_[k], t[i + 1]) - a;
            if (d != Vector2d::Zero()) {
                chords_.push_back({a, d, 1 / d.squaredNorm(), static_cast<int>(k), t[i], t[i + 1]});
                low = low.cwiseMin(a);
                high = high.cwiseMax(a);
            }
        }
    }
    const Vector2d margin = Vector2d::Constant(1e-3);
    origin_ = low - margin;
    const Vector2d extent = high - low + 2 * margin;
    cell_ = std::max(cell_size, extent.maxCoeff() / 256);
    columns_ = static_cast<int>(std::ceil(extent.x() / cell_));
    rows_ = static_cast<int>(std::ceil(extent.y() / cell_));
    all_.resize(chords_.size());
    std::iota(all_.begin(), all_.end(), 0);
    near_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
    share_out(all_, {0, 0}, {columns_, rows_});
}

// What can be nearest inside a block of cells, both halves of it find among these.
void OutlineDistance::share_out(const std::vector<int>& among, Cell from, Cell to) {
    const Vector2d low(from[0], from[1]);
    const Vector2d high(to[0], to[1]);
    std::vector<int> near =
        near_chords(among, origin_ + cell_ * (low + high) / 2, cell_ * (high - low).norm() / 2);
    const std::size_t along = to[0] - from[0] >= to[1] - from[1] ? 0 : 1;
    const int length = to[along] - from[along];
    if (length == 1) {
        near_[static_cast<std::size_t>(from[1] * columns_ + from[0])] = std::move(near);
        return;
    }
    Cell middle_to = to;
    Cell middle_from = from;
    middle_to[along] = middle_from[along] = from[along] + length / 2;
    share_out(near, from, middle_to);
    share_out(near, middle_from, to);
}

std::vector<int> OutlineDistance::near_chords(const std::vector<int>& among, const Vector2d& centre,
                                              double radius) const {
    std::vector<double> squared;
    squared.reserve(among.size());
    for (const int k : among) {
        squared.push_back(chords_[static_cast<std::size_t>(k)].squared_distance(centre));
    }
    // a distance changes by at most `radius` inside the circle, and chords miss the curve by `sag`
    const double reach = std::sqrt(std::ranges::min(squared)) + 2 * radius + 2 * sag;
    std::vector<int> near;
    for (std::size_t k = 0; k < among.size(); ++k) {
        if (squared[k] <= reach * reach) {
            near.push_back(among[k]);
        }
    }
    return near;
}

OutlineDistance::Found OutlineDistance::refined(const Chord& chord, const Vector2d& p) const {
    const OutlinePiece& piece = pieces_[static_cast<std::size_t>(chord.piece)];
    double t = chord.from + chord.share(p) * (chord.to - chord.from);
    Vector2d offset = point_at(piece, t) - p;
    for (int step = 0; step < 12; ++step) {
        const Vector2d slope = tangent_at(piece, t);
        const double gradient = offset.dot(slope);
        double curvature = slope.squaredNorm() + offset.dot(bend_at(piece, t));
        if (!(curvature > 0.1 * slope.squaredNorm())) { // near a centre of curvature: plain descent
            curvature = slope.squaredNorm();
        }
        const double next = std::clamp(t - gradient / curvature, chord.from, chord.to);
        const bool done = std::abs(next - t) * slope.norm() < 1e-12;
        t = next;
        offset = point_at(piece, t) - p;
        if (done) {
            break;
        }
    }
    return {offset.squaredNorm(), {chord.piece, t}};
}

OutlineDistance::Found OutlineDistance::search(const Vector2d& p) const {
    const Vector2d index = (p - origin_) / cell_;
    const bool on_grid =
        index.x() >= 0 && index.y() >= 0 && index.x() < columns_ && index.y() < rows_;
    const std::vector<int>& near =
        on_grid ? near_[static_cast<std::size_t>(index.y()) * static_cast<std::size_t>(columns_) +
                        static_cast<std::size_t>(index.x())]
                : all_;
    double best = std::numeric_limits<double>::infinity();
    int nearest = near.front();
    for (const int k : near) {
        const double squared = chords_[static_cast<std::size_t>(k)].squared_distance(p);
        if (squared < best) {
            best = squared;
            nearest = k;
        }
    }
    Found found = refined(chords_[static_cast<std::size_t>(nearest)], p);
    const double reach = std::sqrt(found.squared) + sag;
    for (const int k : near) { // others that the sag could hide
        const Chord& chord = chords_[static_cast<std::size_t>(k)];
        if (k != nearest && chord.squared_distance(p) <= reach * reach) {
            const Found other = refined(chord, p);
            found = other.squared < found.squared ? other : found;
        }
    }
    return found;
}

double OutlineDistance::operator()(const Vector2d& point) const {
    return std::sqrt(search(point).squared);
}

OutlinePlace OutlineDistance::nearest(const Vector2d& point) const {
    return search(point).place;
}

} // namespace vrid
