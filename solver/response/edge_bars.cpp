#include "solver/response/edge_bars.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <string>

#include "solver/response/error_bar.hpp"

namespace vrid {

namespace {

// Values at places and parts of a sum converge slower than energies. By measurement
// (benchmarks/error_bars.cpp): with 1, 96 % of the bars of random boards hold; with 1.5, 98 %.
constexpr double local = 1.5;

// Of the peak's bar, as part of it: the contact's length and ends move by less than it, what the
// snow's load turns and bends goes with it. By measurement: with a tenth 98.6 to 100 % of lengths
// and ends hold in small motion, with a fiftieth 95; losses at 70 degrees on ice 94.5 % without the
// half, 95.8 with it.
constexpr double of_contact = 0.1;
constexpr double of_loss = 0.5;

bool is_of(const NamedQuantity& number, const std::string& group) {
    return number.name.rfind(group, 0) == 0;
}

// Parts of an edge angle lost do not widen the bars of the whole.
double widest(const std::vector<NamedQuantity>& numbers, const std::string& group) {
    double bar = 0;
    for (const NamedQuantity& number : numbers) {
        const bool whole = !number.name.ends_with("_twist") && !number.name.ends_with("_across");
        bar = is_of(number, group) && whole ? std::max(bar, number.quantity.error) : bar;
    }
    return bar;
}

void at_least(std::vector<NamedQuantity>& numbers, const std::string& group, double bar) {
    for (NamedQuantity& number : numbers) {
        if (is_of(number, group)) {
            number.quantity.error = std::max(number.quantity.error, bar);
        }
    }
}

void at_least_part(std::vector<NamedQuantity>& numbers, const std::string& group, double part) {
    for (NamedQuantity& number : numbers) {
        if (is_of(number, group)) {
            Quantity& quantity = number.quantity;
            quantity.error = std::max(quantity.error, part * std::abs(quantity.value));
        }
    }
}

NamedQuantity& named(std::vector<NamedQuantity>& numbers, const std::string& name) {
    const auto found = std::ranges::find(numbers, name, &NamedQuantity::name);
    assert(found != numbers.end());
    return *found;
}

} // namespace

void set_edge_bars(std::vector<NamedQuantity>& fine, const std::vector<NamedQuantity>& coarse,
                   int degree) {
    assert(fine.size() == coarse.size());
    for (std::size_t k = 0; k < fine.size(); ++k) {
        if (fine[k].name != "balance") {
            fine[k].quantity.error =
                local * error_bar(degree, fine[k].quantity.value, coarse[k].quantity.value);
        }
    }
    if (degree < 2) {
        return;
    }
    const double share = widest(fine, "share_");
    const double loss = widest(fine, "loss_");
    at_least(fine, "share_", share);
    at_least(fine, "loss_", loss);
    at_least(fine, "roll_moment_", widest(fine, "roll_moment_"));
    Quantity& peak = named(fine, "peak").quantity;
    peak.error = std::max(peak.error, share * std::abs(peak.value));
    const double length = named(fine, "contact_length").quantity.value;
    at_least(fine, "peak_x", share * length);
    at_least(fine, "effective_length", share * length);
    if (peak.value != 0) {
        const double part = peak.error / std::abs(peak.value);
        at_least(fine, "contact_", of_contact * part * length);
        at_least_part(fine, "max_depth", part);
        at_least_part(fine, "loss_", of_loss * part);
    }
    // It goes with the cosine of the edge angle: at 45 degrees it is off by the part that this is.
    at_least_part(fine, "turn_radius", loss);
}

void widen_by_curve(std::vector<NamedQuantity>& numbers, const EdgeCurve& curve) {
    Quantity& effective = named(numbers, "effective_length").quantity;
    const double force = curve.q.dot(curve.ds);
    const double by_curve = force * force / curve.q.cwiseAbs2().dot(curve.ds);
    effective.error += std::abs(by_curve - effective.value);
    constexpr Eigen::Index beside = 2; // points that belong to a peak
    Eigen::Index top = 0;
    curve.q.maxCoeff(&top);
    const Quantity& peak = named(numbers, "peak").quantity;
    Quantity& place = named(numbers, "peak_x").quantity;
    for (Eigen::Index i = 1; i + 1 < curve.q.size(); ++i) {
        const bool another = std::abs(i - top) > beside && curve.q(i) >= curve.q(i - 1) &&
                             curve.q(i) >= curve.q(i + 1);
        if (another && curve.q(i) > 0 && curve.q(i) + peak.error >= peak.value) {
            place.error = std::max(place.error, std::abs(curve.x(i) - place.value));
        }
    }
}

} // namespace vrid
