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

double squared_distance(const Vector2d& a, const Vector2d& b, const Vector2d& p) {
    const Vector2d d = b - a;
    const double t = std::clamp((p - a).dot(d) / d.squaredNorm(), 0.0, 1.0);
    return (a + t * d - p).squaredNorm();
}

} // namespace

OutlineDistance::OutlineDistance(const Planform& planform) : pieces_(planform.outline) {
    Vector2d low = Vector2d::Constant(std::numeric_limits<double>::infinity());
    Vector2d high = -low;
    for (std::size_t k = 0; k < pieces_.size(); ++k) {
        const std::vector<double> t = flat_parameters(pieces_[k], sag);
        for (std::size_t i = 0; i + 1 < t.size(); ++i) {
            const Chord chord{point_at(pieces_[k], t[i]), point_at(pieces_[k], t[i + 1]),
                              static_cast<int>(k), t[i], t[i + 1]};
            if (chord.a != chord.b) {
                chords_.push_back(chord);
                low = low.cwiseMin(chord.a);
                high = high.cwiseMax(chord.a);
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
    for (int row = 0; row < rows_; ++row) {
        for (int column = 0; column < columns_; ++column) {
            const Vector2d centre = origin_ + cell_ * Vector2d(column + 0.5, row + 0.5);
            near_.push_back(near_chords(centre, cell_ * std::sqrt(0.5)));
        }
    }
}

std::vector<int> OutlineDistance::near_chords(const Vector2d& centre, double radius) const {
    std::vector<double> squared(chords_.size());
    double best = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < chords_.size(); ++k) {
        squared[k] = squared_distance(chords_[k].a, chords_[k].b, centre);
        best = std::min(best, squared[k]);
    }
    // a distance changes by at most `radius` inside the cell, and chords miss the curve by `sag`
    const double reach = std::sqrt(best) + 2 * radius + 2 * sag;
    std::vector<int> near;
    for (std::size_t k = 0; k < chords_.size(); ++k) {
        if (squared[k] <= reach * reach) {
            near.push_back(static_cast<int>(k));
        }
    }
    return near;
}

OutlineDistance::Found OutlineDistance::refined(const Chord& chord, const Vector2d& p) const {
    const OutlinePiece& piece = pieces_[static_cast<std::size_t>(chord.piece)];
    const Vector2d d = chord.b - chord.a;
    const double share = std::clamp((p - chord.a).dot(d) / d.squaredNorm(), 0.0, 1.0);
    double t = chord.from + share * (chord.to - chord.from);
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
        const Chord& chord = chords_[static_cast<std::size_t>(k)];
        const double squared = squared_distance(chord.a, chord.b, p);
        if (squared < best) {
            best = squared;
            nearest = k;
        }
    }
    Found found = refined(chords_[static_cast<std::size_t>(nearest)], p);
    const double reach = std::sqrt(found.squared) + sag;
    for (const int k : near) { // others that the sag could hide
        const Chord& chord = chords_[static_cast<std::size_t>(k)];
        if (k != nearest && squared_distance(chord.a, chord.b, p) <= reach * reach) {
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
