#include "solver/lot/change_scan.hpp"

#include <algorithm>
#include <cmath>

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

// Of each first board sum u (f - share): what its shape says, of variance 1 / inverse.
VectorXd ChangeScan::contrasts(const VectorXd& u, ChangeShape shape) const {
    VectorXd contrasts = VectorXd::Zero(u.size());
    const Shape& of = shape == ChangeShape::step ? step_ : ramp_;
    const double all = u.sum();
    double tail = 0;
    double first = 0;
    for (Index c = u.size() - 1; c > 0; --c) {
        tail += u(c);
        first += tail;
        contrasts(c) = (shape == ChangeShape::step ? tail : first) - of.share(c) * all;
    }
    return contrasts;
}

VectorXd ChangeScan::gains(const VectorXd& u, ChangeShape shape) const {
    const Shape& of = shape == ChangeShape::step ? step_ : ramp_;
    return contrasts(u, shape).cwiseAbs2().cwiseProduct(of.inverse);
}

FirstBoard ChangeScan::best(const VectorXd& u, ChangeShape shape) const {
    const VectorXd gains = this->gains(u, shape);
    FirstBoard first = first_board(gains);
    add_shift(u, shape, gains, first);
    return first;
}

// The first board is not known: one that is nearly as good has its say, and what they differ by is
// part of the doubt.
void ChangeScan::add_shift(const VectorXd& u, ChangeShape shape, const VectorXd& gains,
                           FirstBoard& first) const {
    const Shape& of = shape == ChangeShape::step ? step_ : ramp_;
    const VectorXd contrasts = this->contrasts(u, shape);
    double weight = 0;
    double sum = 0;
    double squares = 0;
    for (Index c = first.from; c <= first.to; ++c) {
        if (gains(c) > first.G2 - as_good && of.inverse(c) > 0) {
            const double rise = shape == ChangeShape::step ? 1 : static_cast<double>(u.size() - c);
            const double shift = rise * contrasts(c) * of.inverse(c);
            const double likely = std::exp((gains(c) - first.G2) / 2);
            weight += likely;
            sum += likely * shift;
            squares += likely * (shift * shift + rise * rise * of.inverse(c));
        }
    }
    if (weight > 0) {
        first.shift = sum / weight;
        first.sd = std::sqrt(std::max(0.0, squares / weight - first.shift * first.shift));
    }
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
