#include "mesh/block_plan.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <numbers>

#include "mesh/board/cross.hpp"

namespace vrid {

namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double widest = 160 * degree; // inner angle that may stay

// Angle from a to b counter-clockwise, 0..2 pi.
double sweep(const Vector2d& a, const Vector2d& b) {
    const double turn = std::atan2(cross(a, b), a.dot(b));
    return turn < 0 ? turn + 2 * std::numbers::pi : turn;
}

struct FacePoint {
    Vector2d p;
    std::size_t side; // index in the face
    double u;         // share along it
};

constexpr double worst_score = -10;

struct Cut {
    double score = worst_score;
    std::size_t side = 0;
    double u = 0; // 0: at the vertex where the side starts
};

// One face and the search for the best cut from one of its corners.
class Face {
  public:
    Face(const PlanarMap& map, int h, const std::vector<int>& generation, const CutStyle& style)
        : map_(map), sides_(map.face(h)), generation_(generation), style_(style) {
        for (std::size_t k = 0; k < sides_.size(); ++k) {
            angle_.push_back(map.angle(sides_[k]));
            const int pieces = pieces_of(sides_[k]);
            for (int i = 0; i < pieces; ++i) {
                const double u = static_cast<double>(i) / pieces;
                points_.push_back({map.point(sides_[k], u), k, u});
            }
        }
    }

    [[nodiscard]] std::size_t size() const { return sides_.size(); }
    [[nodiscard]] int side(std::size_t k) const { return sides_[k]; }

    [[nodiscard]] std::size_t widest_corner() const {
        return static_cast<std::size_t>(std::ranges::max_element(angle_) - angle_.begin());
    }
    [[nodiscard]] bool is_wide(std::size_t corner) const { return angle_[corner] > widest; }

    [[nodiscard]] Cut best_cut(std::size_t corner) const {
        Cut best;
        const auto consider = [&](const Cut& cut) {
            best = cut.score > best.score + 1e-9 ? cut : best;
        };
        for (std::size_t k = 0; k < size(); ++k) {
            if (k != corner && k != (corner + 1) % size() && (k + 1) % size() != corner) {
                consider(to_vertex(corner, k));
            }
        }
        for (const Vector2d& way : directions(corner)) {
            consider(along_ray(corner, way));
        }
        return best;
    }

    // Across a long thin face with five or more corners: a cut near the end that has the odd ones,
    // from the longest side square to it. Divided from its middle such a face gives flat quads.
    struct Slice {
        std::size_t side = 0;
        double u = 0;
        Cut target;
    };
    [[nodiscard]] std::optional<Slice> slice() const {
        constexpr double too_long = 4;       // times its width
        constexpr double slice_length = 1.7; // of the piece with the odd corners, in widths
        std::size_t side = 0;
        double longest = 0;
        for (std::size_t k = 0; k < size(); ++k) {
            const double length = (at((k + 1) % size()) - at(k)).norm();
            side = length > longest ? k : side;
            longest = std::max(longest, length);
        }
        const double width = area() / longest;
        if (size() < 5 || longest < too_long * width) {
            return std::nullopt;
        }
        for (const bool near_end : {false, true}) {
            const double share = slice_length * width / longest;
            const double u = near_end ? 1 - share : share;
            const Vector2d from = map_.point(sides_[side], u);
            const Vector2d along = map_.point(sides_[side], u + 1e-4) - from;
            const Cut cut = first_hit(from, Vector2d(-along.y(), along.x()).normalized(), side);
            const std::size_t beyond = (cut.side + size() - side) % size();
            const std::size_t corners = near_end ? beyond + 2 : size() - beyond + 2;
            if (cut.score > worst_score && beyond > 1 && beyond + 1 < size() && corners > 4) {
                return Slice{side, u, cut};
            }
        }
        return std::nullopt;
    }

  private:
    [[nodiscard]] double area() const {
        double twice = 0;
        for (std::size_t i = 0; i < points_.size(); ++i) {
            twice += cross(points_[i].p, points_[(i + 1) % points_.size()].p);
        }
        return twice / 2;
    }

    // Chords for a side such that they stay within 0.02 mm: bands may be half a millimetre wide.
    [[nodiscard]] int pieces_of(int h) const {
        if (map_.edge(h).loop < 0) {
            return 1;
        }
        constexpr double sag = 2e-5;
        const Vector2d out = map_.leaving(h);
        const Vector2d middle = map_.point(h, 0.5);
        const double length =
            (middle - map_.point(h, 0)).norm() + (map_.point(h, 1) - middle).norm();
        const Vector2d in = map_.arriving(h);
        const Vector2d chord = (map_.point(h, 1) - map_.point(h, 0)).normalized();
        const double turn = std::abs(std::atan2(cross(out, chord), out.dot(chord))) +
                            std::abs(std::atan2(cross(chord, in), chord.dot(in)));
        return std::clamp(static_cast<int>(std::ceil(std::sqrt(length * turn / (8 * sag)))), 4, 96);
    }

    [[nodiscard]] Vector2d at(std::size_t k) const { return map_.point(sides_[k], 0); }

    // The wedge of the face at a corner: leaving direction, and how far it is to the arriving one.
    [[nodiscard]] std::array<double, 2> parts(std::size_t corner, const Vector2d& way) const {
        const double first = sweep(map_.leaving(sides_[corner]), way);
        return {first, angle_[corner] - first};
    }

    static double goodness(double angle) {
        constexpr double to_be_cut_again = 0.3;
        if (angle > widest) {
            return to_be_cut_again;
        }
        constexpr double last_resort =
            15 * degree; // sharper than this only if nothing else is left
        return std::sin(angle) - (angle < last_resort ? 1 : 0);
    }
    static double goodness(const std::array<double, 2>& angles) {
        return std::min(goodness(angles[0]), goodness(angles[1]));
    }

    [[nodiscard]] bool blocked(const Vector2d& a, const Vector2d& b) const {
        const Vector2d r = b - a;
        for (std::size_t i = 0; i < points_.size(); ++i) {
            const Vector2d& p = points_[i].p;
            const Vector2d& q = points_[(i + 1) % points_.size()].p;
            const Vector2d s = q - p;
            const double denominator = cross(r, s);
            if (denominator == 0) {
                continue;
            }
            const double t = cross(p - a, s) / denominator;
            const double u = cross(p - a, r) / denominator;
            constexpr double margin = 1e-6;
            if (t > margin && t < 1 - margin && u > -margin && u < 1 + margin) {
                return true;
            }
        }
        return false;
    }

    [[nodiscard]] Cut to_vertex(std::size_t corner, std::size_t target) const {
        const Vector2d way = at(target) - at(corner);
        const double length = way.norm();
        if (length < 1e-9) {
            return {};
        }
        const double here = goodness(parts(corner, way));
        const double there = goodness(parts(target, -way));
        if (here <= -1 || there <= -1 || blocked(at(corner), at(target))) {
            return {};
        }
        // meeting another loose end is a gain, splitting a good corner a small loss
        const double bonus = is_wide(target) ? style_.loose_end : -style_.corner;
        return {std::min(here, there) + bonus, target, 0};
    }

    [[nodiscard]] std::vector<Vector2d> directions(std::size_t corner) const {
        const Vector2d out = map_.leaving(sides_[corner]);
        const double angle = angle_[corner];
        std::vector<Vector2d> ways;
        const auto keep = [&](const Vector2d& way) {
            const double first = sweep(out, way);
            if (first > 8 * degree && first < angle - 8 * degree) {
                ways.push_back(way);
            }
        };
        for (int h = map_.previous(sides_[corner]) ^ 1; h != sides_[corner];
             h = map_.previous(h) ^ 1) {
            keep(-map_.leaving(h)); // straight on
        }
        for (const double share : {0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75}) {
            const double turn = share * angle;
            keep({out.x() * std::cos(turn) - out.y() * std::sin(turn),
                  out.x() * std::sin(turn) + out.y() * std::cos(turn)});
        }
        for (std::size_t k = 0; k < size(); ++k) { // square to a side
            if (k == corner || (k + 1) % size() == corner) {
                continue;
            }
            const Vector2d d = nearest_on(k, at(corner)) - at(corner);
            if (d.norm() > 1e-9) {
                keep(d.normalized());
            }
        }
        return ways;
    }

    [[nodiscard]] Vector2d nearest_on(std::size_t side, const Vector2d& p) const {
        Vector2d best = at(side);
        for (std::size_t i = 0; i < points_.size(); ++i) {
            if (points_[i].side != side) {
                continue;
            }
            const Vector2d& a = points_[i].p;
            const Vector2d d = points_[(i + 1) % points_.size()].p - a;
            const double t = std::clamp((p - a).dot(d) / d.squaredNorm(), 0.0, 1.0);
            best = (a + t * d - p).norm() < (best - p).norm() ? a + t * d : best;
        }
        return best;
    }

    [[nodiscard]] Cut along_ray(std::size_t corner, const Vector2d& way) const {
        const Cut cut = first_hit(at(corner), way, size());
        const bool own = cut.side == corner || (cut.side + 1) % size() == corner;
        return cut.score <= worst_score || own ? Cut{} : scored(corner, cut, at(corner));
    }

    // Where a ray first meets another side, unless that is at a vertex; not scored.
    [[nodiscard]] Cut first_hit(const Vector2d& from, const Vector2d& way,
                                std::size_t but_side) const {
        double reach = 1e9;
        Cut cut;
        for (std::size_t i = 0; i < points_.size(); ++i) {
            const FacePoint& p = points_[i];
            const FacePoint& q = points_[(i + 1) % points_.size()];
            const Vector2d s = q.p - p.p;
            const double denominator = cross(way, s);
            if (denominator == 0 || p.side == but_side) {
                continue;
            }
            const double t = cross(p.p - from, s) / denominator;
            const double share = cross(p.p - from, way) / denominator;
            if (t > 1e-7 && t < reach && share >= 0 && share <= 1) {
                reach = t;
                const double end = q.side == p.side ? q.u : 1;
                cut = {0, p.side, p.u + share * (end - p.u)};
            }
        }
        return reach > 1e8 || cut.u < 1e-3 || cut.u > 1 - 1e-3 ? Cut{} : refined(cut, from, way);
    }

    // Moves the hit from the polyline to the curve.
    [[nodiscard]] Cut refined(Cut cut, const Vector2d& from, const Vector2d& way) const {
        const int h = sides_[cut.side];
        if (map_.edge(h).loop >= 0) {
            double step = 1e-4;
            for (int k = 0; k < 6; ++k) {
                const double miss = cross(way, map_.point(h, cut.u) - from);
                const double slope = (cross(way, map_.point(h, cut.u + step) - from) - miss) / step;
                if (slope == 0) {
                    break;
                }
                cut.u = std::clamp(cut.u - miss / slope, 1e-3, 1 - 1e-3 - step);
            }
        }
        return cut;
    }

    [[nodiscard]] Cut scored(std::size_t corner, Cut cut, const Vector2d& from) const {
        const int h = sides_[cut.side];
        const Vector2d hit = map_.point(h, cut.u);
        const Vector2d way = hit - from;
        const double length = way.norm();
        constexpr double step = 1e-4;
        const Vector2d along = map_.point(h, cut.u + step) - map_.point(h, cut.u - step);
        const double square = std::abs(cross(along, way)) / (along.norm() * length);
        const double spare =
            std::min((hit - map_.point(h, 0)).norm(), (hit - map_.point(h, 1)).norm()) / length;
        cut.score = std::min(goodness(parts(corner, way)), square);
        cut.score -=
            style_.short_side * std::max(0.0, 0.3 - spare); // a short remainder makes short quads
        if (!map_.edge(h).boundary || map_.edge(h).loop < 0) {
            // the new vertex must be led on by the neighbour; the longer this goes the dearer
            const auto v = static_cast<std::size_t>(map_.origin(sides_[corner]));
            const double age = v < generation_.size() ? generation_[v] : 0;
            const bool outwards = map_.edge(h).loop >= 0; // the outline is near there
            cut.score -= std::min(style_.new_vertex + (outwards ? 0.2 : 1) * style_.age * age, 0.6);
        }
        return cut;
    }

    const PlanarMap& map_;
    std::vector<int> sides_;
    const std::vector<int>& generation_;
    const CutStyle& style_;
    std::vector<double> angle_;
    std::vector<FacePoint> points_;
};

} // namespace

std::optional<CutFailure> cut_to_convex(PlanarMap& map, const CutStyle& style) {
    std::deque<int> waiting;
    for (int h = 0; h < map.half_edges(); ++h) {
        if (map.has_face(h)) {
            const std::vector<int> round = map.face(h);
            if (*std::ranges::min_element(round) == h) {
                waiting.push_back(h);
            }
        }
    }
    std::vector<int> generation(map.graph().vertices.size(), 0);
    // far beyond any board: a cut that would run on for ever
    const int most_cuts = std::max(4000, 2 * map.half_edges());
    for (int cuts = 0; !waiting.empty();) {
        const int h = waiting.front();
        waiting.pop_front();
        const Face face(map, h, generation, style);
        int from = -1;
        int to = -1;
        if (face.size() < 2) {
            return CutFailure{h, "a line closes on itself"};
        }
        const std::size_t corner = face.widest_corner();
        if (face.is_wide(corner)) {
            const Cut cut = face.best_cut(corner);
            if (cut.score <= worst_score || ++cuts > most_cuts) {
                return CutFailure{h, "no good cut leads on from the end of a line"};
            }
            from = face.side(corner);
            to = cut.u == 0 ? face.side(cut.side) : map.split(face.side(cut.side), cut.u);
            if (cut.u != 0) {
                const int one = generation[static_cast<std::size_t>(map.origin(from))];
                generation.push_back(one + 1);
            }
        } else if (face.size() == 2) { // a lens: cut across its middle
            const int first = face.side(0);
            const int second = face.side(1);
            from = map.split(first, 0.5);
            to = map.split(second, 0.5);
            generation.resize(generation.size() + 2, 0);
        } else if (const auto slice = face.slice(); slice && ++cuts <= most_cuts) {
            from = map.split(face.side(slice->side), slice->u);
            to = map.split(face.side(slice->target.side), slice->target.u);
            generation.resize(generation.size() + 2, 0);
        } else {
            continue;
        }
        const int there = map.cut(from, to);
        waiting.push_back(there);
        waiting.push_back(there ^ 1);
        for (const int other : {from ^ 1, to ^ 1}) { // faces that see a new vertex from outside
            if (map.has_face(other)) {
                waiting.push_back(other);
            }
        }
    }
    return std::nullopt;
}

} // namespace vrid
