#include "solver/response/curve_peak.hpp"

#include <cmath>
#include <optional>

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

// q = q(middle) + slope t + bend t^2, bend < 0, through the neighbours too.
struct Parabola {
    Index middle = 0;
    double before = 0, after = 0; // t of the neighbours
    double slope = 0, bend = 0;
    [[nodiscard]] double t() const { return -slope / (2 * bend); }
};

std::optional<Parabola> parabola_about(const VectorXd& x, const VectorXd& value, Index middle) {
    if (middle < 1 || middle + 1 >= x.size()) {
        return {};
    }
    const double before = x(middle - 1) - x(middle);
    const double after = x(middle + 1) - x(middle);
    if (before == 0 || after == 0) {
        return {};
    }
    const double rise = (value(middle - 1) - value(middle)) / before;
    const double fall = (value(middle + 1) - value(middle)) / after;
    const double bend = (fall - rise) / (after - before);
    if (bend >= 0) {
        return {};
    }
    return Parabola{middle, before, after, rise - bend * before, bend};
}

// About the point, or where a segment ends about the next one on a side, if its top is in between.
std::optional<Parabola> parabola_at(const VectorXd& x, const VectorXd& value, Index at) {
    if (const auto found = parabola_about(x, value, at)) {
        return found;
    }
    for (const Index middle : {at - 1, at + 1, at - 2, at + 2}) {
        const auto found = parabola_about(x, value, middle);
        if (!found) {
            continue;
        }
        const double end = x(at) - x(middle);
        const bool reaches = end == found->before || end == found->after;
        if (reaches && found->t() * end > 0 && std::abs(found->t()) < std::abs(end)) {
            return found;
        }
    }
    return {};
}

} // namespace

CurvePeak curve_peak(const VectorXd& x, const VectorXd& value, Index at) {
    CurvePeak peak{x(at), value(at), Eigen::MatrixX2d::Zero(x.size(), 2)};
    const auto parabola = parabola_at(x, value, at);
    if (!parabola) {
        peak.slopes(at, 0) = 1;
        return peak;
    }
    const auto [middle, before, after, b, c] = *parabola;
    const double t = parabola->t();
    peak.x = x(middle) + t;
    peak.value = value(middle) + b * t / 2;
    // by the values before, at and after the middle
    const Eigen::RowVector3d rise(1 / before, -1 / before, 0);
    const Eigen::RowVector3d fall(0, -1 / after, 1 / after);
    const Eigen::RowVector3d bend = (fall - rise) / (after - before);
    const Eigen::RowVector3d slope = rise - before * bend;
    peak.slopes(middle, 0) = 1;
    peak.slopes.col(0).segment<3>(middle - 1) += t * slope + t * t * bend;
    peak.slopes.col(1).segment<3>(middle - 1) = -(slope + 2 * t * bend) / (2 * c);
    return peak;
}

} // namespace vrid
