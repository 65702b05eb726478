#include <algorithm>
#include <cmath>
#include <limits>

#include "mesh/board/eigen_names.hpp"
#include "mesh/board/planform.hpp"
#include "mesh/board/same_place.hpp"

namespace vrid {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();

/// Half width of one side by station; outwards counts as positive on both sides.
class Side {
  public:
    Side(const Planform& planform, bool left) : planform_(planform), left_(left) {}
    [[nodiscard]] Vector2d at(double x) const {
        const auto extent = y_extent(planform_, x);
        return {x, !extent ? 0.0 : left_ ? (*extent)[1] : -(*extent)[0]};
    }

  private:
    const Planform& planform_;
    bool left_;
};

// The narrowest station between the contact stations: a scan, then golden section beside its best.
double narrowest(const Side& side, double tail, double nose) {
    constexpr int probes = 200;
    const double interval = (nose - tail) / probes;
    double best = (tail + nose) / 2;
    for (int k = 0; k <= probes; ++k) {
        const double x = tail + k * interval;
        best = side.at(x).y() < side.at(best).y() ? x : best;
    }
    double low = std::max(tail, best - interval);
    double high = std::min(nose, best + interval);
    constexpr double golden = 0.6180339887498949;
    constexpr int steps = 40; // to 1e-8 of the first interval, whatever the numbers
    for (int step = 0; step < steps; ++step) {
        const double a = high - golden * (high - low);
        const double b = low + golden * (high - low);
        (side.at(a).y() < side.at(b).y() ? high : low) = side.at(a).y() < side.at(b).y() ? b : a;
    }
    const double refined = (low + high) / 2;
    return side.at(refined).y() < side.at(best).y() ? refined : best;
}

// Of the circle through the three; none where b does not lie inside the line from a to c.
double circle_radius(const Vector2d& a, const Vector2d& b, const Vector2d& c) {
    const Vector2d p = b - a;
    const Vector2d q = c - a;
    const double twice_area = p.x() * q.y() - p.y() * q.x();
    if (twice_area < same_place * q.norm()) {
        return none;
    }
    return p.norm() * q.norm() * (q - p).norm() / (2 * twice_area);
}

} // namespace

std::array<double, 2> sidecut_radius(const Planform& planform) {
    const double half = planform.running_length / 2;
    const auto contacts = edge_contacts(planform);
    std::array<double, 2> radius{none, none};
    for (const std::size_t i : {0, 1}) {
        const Side side(planform, i == 0);
        // of a shape the circle that it is made from, wherever its edges touch
        const auto [tail, nose] = planform.shape ? std::array{-half, half} : contacts[i];
        const double waist = planform.shape ? planform.shape->waist_x : narrowest(side, tail, nose);
        // narrowest at a contact station: the side tapers or bulges and has no sidecut
        if (std::min(waist - tail, nose - waist) >= same_place) {
            radius[i] = circle_radius(side.at(tail), side.at(waist), side.at(nose));
        }
    }
    return radius;
}

} // namespace vrid
