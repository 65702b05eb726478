#include <algorithm>
#include <string>
#include <utility>

#include "mesh/board/drawn_outline.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/board/outline_smoothing.hpp"
#include "mesh/board/planform.hpp"

namespace vrid {

using Points = std::vector<Eigen::Vector2d>;

namespace {

// Rows of a tridiagonal system of slopes, two right-hand sides (x, y).
struct Tridiagonal {
    std::vector<double> lower, diagonal, upper;
    Points right;

    explicit Tridiagonal(std::size_t n)
        : lower(n, 0.0), diagonal(n, 1.0), upper(n, 0.0), right(n, Vector2d::Zero()) {}
};

Points solve(Tridiagonal system) {
    const std::size_t n = system.diagonal.size();
    for (std::size_t i = 1; i < n; ++i) {
        const double factor = system.lower[i] / system.diagonal[i - 1];
        system.diagonal[i] -= factor * system.upper[i - 1];
        system.right[i] -= factor * system.right[i - 1];
    }
    Points slope(n);
    slope[n - 1] = system.right[n - 1] / system.diagonal[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) {
        slope[i] = (system.right[i] - system.upper[i] * slope[i + 1]) / system.diagonal[i];
    }
    return slope;
}

struct Chords {
    std::vector<double> h; // lengths
    Points d;              // secants
};

Chords chords_of(const Points& p) {
    Chords chords;
    for (std::size_t i = 0; i + 1 < p.size(); ++i) {
        chords.h.push_back((p[i + 1] - p[i]).norm());
        chords.d.push_back((p[i + 1] - p[i]) / chords.h.back());
    }
    return chords;
}

// h_i m_{i-1} + 2 (h_{i-1} + h_i) m_i + h_{i-1} m_{i+1} = 3 (h_i d_{i-1} + h_{i-1} d_i)
void set_smooth_row(Tridiagonal& system, std::size_t row, double h0, double h1, const Vector2d& d0,
                    const Vector2d& d1) {
    system.lower[row] = h1;
    system.diagonal[row] = 2 * (h0 + h1);
    system.upper[row] = h0;
    system.right[row] = 3 * (h1 * d0 + h0 * d1);
}

// Not-a-knot ends: the third derivative is continuous at the second point and the last but one.
Points open_slopes(const Points& p) {
    const Chords c = chords_of(p);
    const std::size_t n = p.size();
    if (n == 2) {
        return {c.d[0], c.d[0]};
    }
    if (n == 3) { // the parabola through three points
        const Vector2d middle = (c.h[1] * c.d[0] + c.h[0] * c.d[1]) / (c.h[0] + c.h[1]);
        return {2 * c.d[0] - middle, middle, 2 * c.d[1] - middle};
    }
    Tridiagonal system(n);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        set_smooth_row(system, i, c.h[i - 1], c.h[i], c.d[i - 1], c.d[i]);
    }
    const auto end = [](double h0, double h1, const Vector2d& d0, const Vector2d& d1) -> Vector2d {
        return ((h0 + 2 * (h0 + h1)) * h1 * d0 + h0 * h0 * d1) / (h0 + h1);
    };
    system.diagonal[0] = c.h[1];
    system.upper[0] = c.h[0] + c.h[1];
    system.right[0] = end(c.h[0], c.h[1], c.d[0], c.d[1]);
    system.diagonal[n - 1] = c.h[n - 3];
    system.lower[n - 1] = c.h[n - 2] + c.h[n - 3];
    system.right[n - 1] = end(c.h[n - 2], c.h[n - 3], c.d[n - 2], c.d[n - 3]);
    return solve(std::move(system));
}

// p has its first point again at the end; the cyclic system is solved by a rank-one update.
Points periodic_slopes(const Points& p) {
    const Chords c = chords_of(p);
    const std::size_t n = p.size() - 1;
    Tridiagonal system(n);
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t before = (i + n - 1) % n;
        set_smooth_row(system, i, c.h[before], c.h[i], c.d[before], c.d[i]);
    }
    const double corner_low = system.lower[0];      // couples row 0 to slope n-1
    const double corner_high = system.upper[n - 1]; // couples row n-1 to slope 0
    const double gamma = -system.diagonal[0];
    system.diagonal[0] -= gamma;
    system.diagonal[n - 1] -= corner_low * corner_high / gamma;
    Tridiagonal update = system;
    std::ranges::fill(update.right, Vector2d::Zero());
    update.right[0] = Vector2d::Constant(gamma);
    update.right[n - 1] = Vector2d::Constant(corner_high);
    Points slope = solve(std::move(system));
    const Points z = solve(std::move(update));
    const double ratio = corner_low / gamma;
    const Vector2d weight =
        (slope[0] + ratio * slope[n - 1]) / (1 + z[0].x() + ratio * z[n - 1].x());
    for (std::size_t i = 0; i < n; ++i) {
        slope[i] -= z[i].x() * weight;
    }
    slope.push_back(slope[0]);
    return slope;
}

void append_pieces(std::vector<OutlinePiece>& outline, const Points& p, const Points& slope,
                   bool corner_first) {
    for (std::size_t i = 0; i + 1 < p.size(); ++i) {
        const double third = (p[i + 1] - p[i]).norm() / 3;
        OutlinePiece piece;
        piece.control = {p[i], p[i] + third * slope[i], p[i + 1] - third * slope[i + 1], p[i + 1]};
        piece.corner_at_start = corner_first && i == 0;
        outline.push_back(piece);
    }
}

double polygon_area(const Points& p) {
    double twice = 0;
    for (std::size_t i = 0; i < p.size(); ++i) {
        const Vector2d& a = p[i];
        const Vector2d& b = p[(i + 1) % p.size()];
        twice += a.x() * b.y() - a.y() * b.x();
    }
    return twice / 2;
}

// Distinct points counter-clockwise, starting at a corner if there is one.
void arrange(Points& points, std::vector<bool>& corner) {
    constexpr double same = 1e-9;
    Points p;
    std::vector<bool> c;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (p.empty() || (points[i] - p.back()).norm() > same) {
            p.push_back(points[i]);
            c.push_back(!corner.empty() && corner[i]);
        }
    }
    if (p.size() > 1 && (p.front() - p.back()).norm() <= same) {
        c.front() = c.front() || c.back();
        p.pop_back();
        c.pop_back();
    }
    if (polygon_area(p) < 0) {
        std::ranges::reverse(p);
        std::reverse(c.begin(), c.end());
    }
    const auto first = std::ranges::find(c, true);
    if (first != c.end()) {
        const auto shift = first - c.begin();
        std::rotate(p.begin(), p.begin() + shift, p.end());
        std::rotate(c.begin(), first, c.end());
    }
    points = std::move(p);
    corner = std::move(c);
}

DrawnFit fit_of(const Points& listed, const Points& used, double tolerance) {
    DrawnFit fit{static_cast<int>(listed.size()), tolerance, 0, 0};
    for (std::size_t i = 0; i < listed.size(); ++i) {
        const double move = (used[i] - listed[i]).cwiseAbs().maxCoeff();
        if (move > fit.largest_move) {
            fit.largest_move = move;
            fit.move_x = listed[i].x();
        }
    }
    return fit;
}

} // namespace

DrawnPlanform drawn_planform(const DrawnOutline& outline, double running_length, double tolerance) {
    Points p = outline.points;
    std::vector<bool> c = outline.corner;
    c.resize(p.size(), false);
    arrange(p, c);
    constexpr std::size_t fewest = 20;
    if (p.size() < fewest) {
        throw InputError("planform", "a drawn outline needs at least 20 points, found " +
                                         std::to_string(p.size()));
    }
    Planform planform;
    planform.running_length = running_length;
    const Points listed = std::exchange(p, smoothed_points(p, c, tolerance));
    const DrawnFit fit = fit_of(listed, p, tolerance);
    p.push_back(p.front());
    if (!c.front()) {
        append_pieces(planform.outline, p, periodic_slopes(p), false);
    } else {
        c.push_back(true);
        std::size_t from = 0;
        for (std::size_t i = 1; i < p.size(); ++i) {
            if (c[i]) {
                const Points part(p.begin() + static_cast<std::ptrdiff_t>(from),
                                  p.begin() + static_cast<std::ptrdiff_t>(i) + 1);
                append_pieces(planform.outline, part, open_slopes(part), true);
                from = i;
            }
        }
    }
    check_no_self_crossing(planform);
    return {std::move(planform), fit};
}

Planform spline_planform(const Points& points, const std::vector<bool>& corner,
                         double running_length) {
    return drawn_planform({points, corner}, running_length, 0).planform;
}

} // namespace vrid
