#include "solver/lot/change_scan.hpp"

#include <algorithm>

namespace vrid {

ChangeScan::ChangeScan(const VectorXd& q) {
    const Index count = q.size();
    const double all = q.sum();
    double tail = 0;   // sum of q from c on
    double first = 0;  // sum of (i - c + 1) q
    double second = 0; // sum of (i - c + 1)^2 q
    const auto resize = [&](Shape& shape) {
        shape.share = VectorXd::Zero(count);
        shape.inverse = VectorXd::Zero(count);
    };
    resize(step_);
    resize(ramp_);
    const auto put = [&](Shape& shape, Index c, double sum, double squares) {
        constexpr double rounding = 1e-9;
        const double variance = squares - sum * sum / all;
        if (all > 0 && variance > rounding * squares && variance > 0) {
            shape.share(c) = sum / all;
            shape.inverse(c) = 1 / variance;
        }
    };
    for (Index c = count - 1; c > 0; --c) {
        tail += q(c);
        second += 2 * first + tail;
        first += tail;
        put(step_, c, tail, tail);
        put(ramp_, c, first, second);
    }
}

VectorXd ChangeScan::gains(const VectorXd& u, ChangeShape shape) const {
    VectorXd gains = VectorXd::Zero(u.size());
    const Shape& of = shape == ChangeShape::step ? step_ : ramp_;
    const double all = u.sum();
    double tail = 0;
    double first = 0;
    for (Index c = u.size() - 1; c > 0; --c) {
        tail += u(c);
        first += tail;
        const double sum = (shape == ChangeShape::step ? tail : first) - of.share(c) * all;
        gains(c) = sum * sum * of.inverse(c);
    }
    return gains;
}

double ChangeScan::largest(const VectorXd& u) const {
    const double all = u.sum();
    double tail = 0;
    double first = 0;
    double largest = 0;
    for (Index c = u.size() - 1; c > 0; --c) {
        tail += u(c);
        first += tail;
        const double step = tail - step_.share(c) * all;
        const double ramp = first - ramp_.share(c) * all;
        largest =
            std::max({largest, step * step * step_.inverse(c), ramp * ramp * ramp_.inverse(c)});
    }
    return largest;
}

FirstBoard first_board(const VectorXd& gains) {
    FirstBoard best;
    best.G2 = gains.maxCoeff(&best.first);
    best.from = best.first;
    best.to = best.first;
    for (Index c = 1; c < gains.size(); ++c) {
        if (gains(c) > best.G2 - as_good) {
            best.from = std::min(best.from, c);
            best.to = std::max(best.to, c);
        }
    }
    return best;
}

} // namespace vrid
