#include "mesh/curve.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/outline_piece.hpp"

namespace vrid {

namespace {

constexpr double turn_length = 0.05;  // r: a turn of one radian counts like this length [m]
constexpr double sharpest = 0.02;     // turns of smaller radius do not count more than this [m]
constexpr double soft_curvature = 1;  // [1/m] rounds |curvature| off where it passes zero
constexpr double longest_step = 0.01; // of the samples [m]

// ds/dt: rate of the loop parameter along the piece.
double rate(const CurveSpan& span, double t) {
    const OutlinePiece& piece = span.piece;
    if (span.fan) {
        return std::abs(piece.angle_to - piece.angle_from) * piece.radius;
    }
    const Vector2d d = tangent_at(piece, t);
    const Vector2d b = bend_at(piece, t);
    const double speed = d.norm();
    if (speed < 1e-12) {
        return 1e-12;
    }
    const double curvature = (d.x() * b.y() - d.y() * b.x()) / (speed * speed * speed);
    const double size = std::sqrt(curvature * curvature + soft_curvature * soft_curvature);
    // near its centre of curvature a parallel has no length left: s must slow down with it, or the
    // curve would stand still there
    const double used = std::max(curvature * span.offset, 0.0);
    const double left = std::max(1 - used * used * used * used, 1e-3);
    return speed * left * (1 + turn_length * (size - soft_curvature) / (1 + size * sharpest));
}

// Integral of the rate by three Gauss points, enough between neighbouring samples.
double travelled(const CurveSpan& span, double from, double to) {
    const double half = (to - from) / 2;
    const double middle = (to + from) / 2;
    const double reach = half * std::sqrt(0.6);
    return half / 9 *
           (5 * rate(span, middle - reach) + 8 * rate(span, middle) +
            5 * rate(span, middle + reach));
}

} // namespace

Vector2d point_on(const CurveSpan& span, double t) {
    const OutlinePiece& piece = span.piece;
    if (piece.radius > 0) { // the left of a counter-clockwise arc is towards its centre
        const double turn = piece.angle_to - piece.angle_from;
        const double angle = piece.angle_from + t * turn;
        return piece.centre + (piece.radius - std::copysign(span.offset, turn)) *
                                  Vector2d(std::cos(angle), std::sin(angle));
    }
    if (span.offset == 0) {
        return point_at(piece, t);
    }
    const Vector2d d = tangent_at(piece, t).normalized();
    return point_at(piece, t) + span.offset * Vector2d(-d.y(), d.x());
}

Loop::Loop(std::vector<CurveSpan> spans) : spans_(std::move(spans)) {
    constexpr double sag = 2e-5; // [m]
    double s = 0;
    for (std::size_t k = 0; k < spans_.size(); ++k) {
        const CurveSpan& span = spans_[k];
        std::vector<double> stops{span.from};
        std::vector<double> flat = flat_parameters(span.piece, sag);
        for (const double t : flat) {
            if (t > span.from && t < span.to) {
                stops.push_back(t);
            }
        }
        stops.push_back(span.to);
        for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
            const double size = (point_on(span, stops[i + 1]) - point_on(span, stops[i])).norm();
            const int parts = 1 + static_cast<int>(size / longest_step);
            for (int p = 0; p < parts; ++p) {
                const double from = stops[i] + (stops[i + 1] - stops[i]) * p / parts;
                const double to = stops[i] + (stops[i + 1] - stops[i]) * (p + 1) / parts;
                samples_.push_back(
                    {s, point_on(span, from), static_cast<int>(k), from, 1 / rate(span, from)});
                s += travelled(span, from, to);
            }
        }
    }
    samples_.push_back({s, samples_.front().point, static_cast<int>(spans_.size()) - 1,
                        spans_.back().to, 1 / rate(spans_.back(), spans_.back().to)});
}

Loop::Spot Loop::spot(double s) const {
    s = std::fmod(s, length());
    s = s < 0 ? s + length() : s;
    const auto above = std::ranges::upper_bound(samples_, s, {}, &Sample::s);
    auto i = static_cast<std::size_t>(above - samples_.begin());
    i = std::clamp<std::size_t>(i, 1, samples_.size() - 1) - 1;
    const Sample& a = samples_[i];
    const CurveSpan& span = spans_[static_cast<std::size_t>(a.span)];
    const bool same = samples_[i + 1].span == a.span && i + 2 < samples_.size();
    const double end = same ? samples_[i + 1].t : span.to;
    const double end_slope = same ? samples_[i + 1].slope : 1 / rate(span, span.to);
    const double h = samples_[i + 1].s - a.s;
    if (!(h > 0)) {
        return {&span, a.t};
    }
    // cubic Hermite of t(s): smooth along the curve, which is all that is needed of it
    const double x = (s - a.s) / h;
    const double y = 1 - x;
    const double t = y * y * (1 + 2 * x) * a.t + x * x * (3 - 2 * x) * end +
                     h * x * y * (y * a.slope - x * end_slope);
    return {&span, std::clamp(t, a.t, end)};
}

Vector2d Loop::point(double s) const {
    const Spot at = spot(s);
    return point_on(*at.span, at.t);
}

Vector2d Loop::direction(double s) const {
    const Spot at = spot(s);
    return tangent_at(at.span->piece, at.t).normalized();
}

std::vector<double> Loop::corners() const {
    std::vector<double> stops;
    int last = -1;
    for (const Sample& sample : samples_) {
        if (sample.span != last && spans_[static_cast<std::size_t>(sample.span)].corner) {
            stops.push_back(sample.s);
        }
        last = sample.span;
    }
    return stops;
}

} // namespace vrid
