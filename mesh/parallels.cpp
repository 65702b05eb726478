#include "mesh/line_stops.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/outline_piece.hpp"

namespace vrid {

namespace {

constexpr double step = 0.004;       // of the search for cut-off stretches [m]
constexpr double slack = 1e-8;       // of a distance that counts as equal [m]
constexpr double joint = 2e-5;       // ends that meet [m]
constexpr double shortest = 1e-3;    // of a loop that is kept, in length [m]
constexpr double corner_turn = 0.02; // smaller turns are no corner [rad]

double turn_between(const Vector2d& a, const Vector2d& b) {
    return std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b));
}

// Arc round a corner at which the board is re-entrant, traversed clockwise.
CurveSpan corner_arc(const Vector2d& corner, const Vector2d& before, const Vector2d& after,
                     double distance) {
    CurveSpan span;
    span.fan = true;
    span.piece.centre = corner;
    span.piece.radius = distance;
    span.piece.angle_from = std::atan2(before.x(), -before.y()); // of the left normal
    span.piece.angle_to = span.piece.angle_from + turn_between(before, after);
    return span;
}

// Plain offset pieces in order, with arcs at re-entrant corners.
std::vector<CurveSpan> plain_offset(const Planform& planform, double distance) {
    std::vector<CurveSpan> spans;
    const std::size_t n = planform.outline.size();
    for (std::size_t k = 0; k < n; ++k) {
        const OutlinePiece& piece = planform.outline[k];
        const Vector2d before = tangent_at(planform.outline[(k + n - 1) % n], 1);
        const Vector2d after = tangent_at(piece, 0);
        const double turn = turn_between(before, after);
        if (piece.corner_at_start && turn < -1e-6 && distance > 0) {
            spans.push_back(corner_arc(point_at(piece, 0), before, after, distance));
        }
        CurveSpan span{piece, 0, 1, distance, false};
        span.corner = piece.corner_at_start &&
                      (distance == 0 ? std::abs(turn) > corner_turn : turn > corner_turn);
        spans.push_back(span);
    }
    return spans;
}

using Chain = std::vector<CurveSpan>;

class Trimmer {
  public:
    Trimmer(const OutlineDistance& outline, double distance)
        : outline_(outline), distance_(distance) {}

    // Stretches of the plain offset that keep the distance, as chains of spans.
    std::vector<Chain> chains(const std::vector<CurveSpan>& spans) {
        for (const CurveSpan& span : spans) {
            add(span);
        }
        const bool whole = chains_.size() > 1 && open_ && starts_inside_;
        if (whole && !chains_.front().empty()) { // the first chain continues the last one
            Chain& last = chains_.back();
            last.insert(last.end(), chains_.front().begin(), chains_.front().end());
            chains_.front() = std::move(last);
            chains_.pop_back();
        }
        return std::move(chains_);
    }
    [[nodiscard]] bool never_cut() const { return !cut_; }

  private:
    [[nodiscard]] bool keeps(const CurveSpan& span, double t) const {
        return outline_(point_on(span, t)) >= distance_ - slack;
    }

    [[nodiscard]] double change(const CurveSpan& span, double from, double to) const {
        const bool kept = keeps(span, from);
        while (to - from > 1e-13) {
            const double middle = (from + to) / 2;
            if (middle == from || middle == to) {
                break;
            }
            (keeps(span, middle) == kept ? from : to) = middle;
        }
        return (from + to) / 2;
    }

    void add(const CurveSpan& span) {
        const double size = (point_at(span.piece, 1) - point_at(span.piece, 0)).norm() +
                            std::abs(span.piece.radius * 1e-3);
        const int parts = 4 + static_cast<int>(size / step);
        bool kept = keeps(span, 0);
        if (first_) {
            starts_inside_ = kept;
            first_ = false;
        }
        if (open_ && !kept) {
            close();
        }
        double start = 0;
        for (int k = 0; k < parts; ++k) {
            const double from = static_cast<double>(k) / parts;
            const double to = static_cast<double>(k + 1) / parts;
            const bool next = keeps(span, to);
            if (next != kept) {
                const double t = change(span, from, to);
                if (kept) {
                    put(span, start, t);
                    close();
                } else {
                    start = t;
                    cut_ = true;
                }
            }
            kept = next;
        }
        if (kept) {
            put(span, start, 1);
        }
    }

    void put(const CurveSpan& span, double from, double to) {
        if (!open_) {
            chains_.emplace_back();
            open_ = true;
        }
        CurveSpan part = span;
        part.from = from;
        part.to = to;
        chains_.back().push_back(part);
    }

    void close() {
        open_ = false;
        cut_ = true;
    }

    const OutlineDistance& outline_;
    double distance_;
    std::vector<Chain> chains_;
    bool open_ = false, first_ = true, starts_inside_ = false, cut_ = false;
};

Vector2d start_of(const Chain& chain) {
    return point_on(chain.front(), chain.front().from);
}
Vector2d end_of(const Chain& chain) {
    return point_on(chain.back(), chain.back().to);
}

double size_of(const Loop& loop) {
    Vector2d low = loop.samples().front().point;
    Vector2d high = low;
    for (const Loop::Sample& sample : loop.samples()) {
        low = low.cwiseMin(sample.point);
        high = high.cwiseMax(sample.point);
    }
    return (high - low).norm();
}

// Joins chains end to start; what finds no partner is a sliver below the search step.
std::vector<Loop> joined(std::vector<Chain> chains) {
    std::vector<Loop> loops;
    std::vector<bool> used(chains.size(), false);
    for (std::size_t first = 0; first < chains.size(); ++first) {
        if (used[first]) {
            continue;
        }
        Chain whole;
        bool closed = false;
        for (std::size_t k = first; !closed;) {
            used[k] = true;
            chains[k].front().corner = true;
            whole.insert(whole.end(), chains[k].begin(), chains[k].end());
            const Vector2d end = end_of(chains[k]);
            std::size_t best = chains.size();
            double nearest = joint;
            for (std::size_t j = 0; j < chains.size(); ++j) {
                const double gap = (start_of(chains[j]) - end).norm();
                if ((j == first || !used[j]) && gap < nearest) {
                    nearest = gap;
                    best = j;
                }
            }
            if (best == chains.size()) {
                break;
            }
            closed = best == first;
            k = best;
        }
        if (closed) {
            loops.emplace_back(std::move(whole));
        }
    }
    return loops;
}

} // namespace

Loop outline_loop(const Planform& planform) {
    return Loop(plain_offset(planform, 0));
}

std::vector<Loop> parallel_loops(const Planform& planform, const OutlineDistance& outline,
                                 double distance) {
    Trimmer trimmer(outline, distance);
    std::vector<Chain> chains = trimmer.chains(plain_offset(planform, distance));
    std::vector<Loop> loops;
    if (trimmer.never_cut() && chains.size() == 1) {
        loops.emplace_back(std::move(chains.front()));
    } else {
        loops = joined(std::move(chains));
    }
    std::erase_if(loops, [](const Loop& loop) { return size_of(loop) < shortest; });
    return loops;
}

} // namespace vrid
