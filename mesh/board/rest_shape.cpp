#include "mesh/board/rest_shape.hpp"

#include <array>
#include <cmath>

#include <boost/math/quadrature/gauss.hpp>

#include "mesh/board/same_place.hpp"

namespace vrid {

namespace {

// Slope and second derivative of the height in piece i, between stations i and i + 1.
std::array<double, 2> derivatives(const Profile& p, const std::vector<double>& slopes,
                                  std::size_t i, double x) {
    const double h = p.x[i + 1] - p.x[i];
    const double secant = (p.value[i + 1] - p.value[i]) / h;
    if (p.interpolation == Interpolation::linear) {
        return {secant, 0};
    }
    const double t = (x - p.x[i]) / h;
    const double rise = slopes[i] + slopes[i + 1] - 2 * secant; // z = ... + h rise t^3
    const double bow = 3 * secant - 2 * slopes[i] - slopes[i + 1];
    return {slopes[i] + 2 * bow * t + 3 * rise * t * t, (2 * bow + 6 * rise * t) / h};
}

// The piece that holds a station, -1 before the first and n - 1 behind the last station; those two
// themselves are in the piece inside.
int piece_at(const Profile& p, double x) {
    const auto n = static_cast<int>(p.x.size());
    const auto above = std::ranges::upper_bound(p.x, x);
    const int piece = static_cast<int>(above - p.x.begin()) - 1;
    if (n > 1 && x > p.x.front() - same_line && x < p.x.back() + same_line) {
        return std::clamp(piece, 0, n - 2);
    }
    return piece;
}

bool holds(const Profile& p, int piece, double x) {
    const auto n = static_cast<int>(p.x.size());
    return (piece < 0 || x > p.x[static_cast<std::size_t>(piece)] - same_line) &&
           (piece >= n - 1 || x < p.x[static_cast<std::size_t>(piece) + 1] + same_line);
}

// Slope beyond the last station before the tail (piece -1) or behind it: that of the curve's end
// where it rises outwards, so that a tip whose last station stands before it has no kink there;
// else level, as a board without tips' heights lies.
double slope_beyond(const RestShape& shape, int piece) {
    const std::size_t pieces = shape.height.x.size() - 1;
    if (pieces == 0) {
        return 0;
    }
    const std::size_t last = piece < 0 ? 0 : pieces - 1;
    const double x = piece < 0 ? shape.height.x.front() : shape.height.x.back();
    const double slope = derivatives(shape.height, shape.slopes, last, x)[0];
    return (piece < 0 ? slope < 0 : slope > 0) ? slope : 0;
}

} // namespace

RestFrame RestShape::frame(double x, double near) const {
    int piece = piece_at(height, near);
    if (!holds(height, piece, x)) {
        piece = piece_at(height, x);
    }
    if (piece < 0 || piece + 1 >= static_cast<int>(height.x.size())) {
        const double S = slope_beyond(*this, piece);
        return {std::sqrt(1 - S * S), S, 0};
    }
    const auto [S, bend] = derivatives(height, slopes, static_cast<std::size_t>(piece), x);
    const double C = std::sqrt(1 - S * S);
    return {C, S, bend / C};
}

double RestShape::z(double x) const {
    const double beyond = x < height.x.front()  ? x - height.x.front()
                          : x > height.x.back() ? x - height.x.back()
                                                : 0;
    const int piece = beyond < 0 ? -1 : 0;
    return value_at(height, slopes, x) + (beyond == 0 ? 0 : beyond * slope_beyond(*this, piece));
}

double RestShape::place(double x) const {
    // Cosines are smooth in every piece.
    const auto length = [&](double a, double b) {
        const double middle = (a + b) / 2;
        return boost::math::quadrature::gauss<double, 15>::integrate(
            [&](double at) { return frame(at, middle).C; }, a, b);
    };
    const double low = std::min(0.0, x);
    const double high = std::max(0.0, x);
    double from = low;
    double sum = 0;
    for (const double station : height.x) {
        if (station > from && station < high) {
            sum += length(from, station);
            from = station;
        }
    }
    sum += length(from, high);
    return x < 0 ? -sum : sum;
}

std::shared_ptr<const RestShape> rest_shape(const Board& board) {
    if (!board.rest_shape) {
        return nullptr;
    }
    const Profile& height = *board.rest_shape;
    if (std::ranges::all_of(height.value, [&](double z) { return z == height.value.front(); })) {
        return nullptr;
    }
    return std::make_shared<const RestShape>(RestShape{height, smooth_slopes(height)});
}

Steepest steepest(const Profile& height) {
    const std::vector<double> slopes = smooth_slopes(height);
    Steepest found;
    for (std::size_t i = 0; i + 1 < height.x.size(); ++i) {
        const double a = height.x[i];
        const double h = height.x[i + 1] - a;
        std::array<double, 3> places{a, a + h, a}; // and where the slope turns
        const double bend0 = derivatives(height, slopes, i, a)[1];
        const double bend1 = derivatives(height, slopes, i, a + h)[1];
        if (bend0 * bend1 < 0) {
            places[2] = a + h * bend0 / (bend0 - bend1);
        }
        for (const double x : places) {
            const double slope = std::abs(derivatives(height, slopes, i, x)[0]);
            if (slope > found.slope) {
                found = {slope, x};
            }
        }
    }
    return found;
}

Tightest tightest(const RestShape& shape, double from, double to) {
    double largest = 0;
    Tightest found;
    const auto look = [&](double x, double near) {
        const double kap = std::abs(shape.frame(x, near).kap);
        if (x >= from && x <= to && kap > largest) {
            largest = kap;
            found = {1 / kap, x};
        }
    };
    constexpr int steps = 64; // z'' is linear in a piece, only 1 / C bends it
    const std::vector<double>& x = shape.height.x;
    for (std::size_t i = 0; i + 1 < x.size(); ++i) {
        for (int k = 0; k <= steps; ++k) {
            look(std::clamp(x[i] + (x[i + 1] - x[i]) * k / steps, from, to), (x[i] + x[i + 1]) / 2);
        }
    }
    return found;
}

} // namespace vrid
