#include "solver/bend.hpp"

#include <algorithm>
#include <cmath>

#include "solver/response/error_bar.hpp"

namespace vrid {

namespace {

// Where the line comes to twist, its edges change against each other from degree to degree, and
// their mean may keep still by chance at one: each part counts by its own change.
double flattening_bar(int p, const Eigen::Vector3d& fine, const Eigen::Vector3d& coarse) {
    double bar = 0;
    for (Index i = 0; i < 3; ++i) {
        bar += std::abs(flattening(i)) * error_bar(p, fine(i), coarse(i));
    }
    return bar;
}

// The tangent's relative error is the force's within a factor of two (random boards bent to 40 mm),
// but its change from degree to degree passes zero by chance: one of twenty bars of its change
// alone was eleven times too small (benchmarks/bend_bars.cpp).
double tangent_bar(double own, double tangent, const Quantity& force) {
    return std::max(own, std::abs(tangent / force.value) * force.error);
}

} // namespace

Bending with_bars(BendPass fine, const BendPass& coarse) {
    Bending bent{std::move(fine.cases), std::move(fine.warnings)};
    const int p = fine.model->reference.p;
    for (std::size_t i = 0; i < bent.cases.size(); ++i) {
        bent.cases[i].coarse_motion = coarse.cases[i].motion;
        for (std::size_t k = 0; k < bent.cases[i].numbers.size(); ++k) {
            NamedQuantity& number = bent.cases[i].numbers[k];
            const double below = coarse.cases[i].numbers[k].quantity.value;
            number.quantity.error = number.name == "flattening"
                                        ? flattening_bar(p, fine.lines[i], coarse.lines[i])
                                        : error_bar(p, number.quantity.value, below);
            if (number.name == "tangent") {
                number.quantity.error =
                    tangent_bar(number.quantity.error, number.quantity.value,
                                bent.cases[i].numbers.front().quantity); // the force
            }
        }
    }
    return bent;
}

Bending bend_board(const Board& board, const BendModel& coarse, const BendModel& fine,
                   const std::vector<const BenchCase*>& cases, const Settings& settings,
                   const std::vector<std::string>& weighed) {
    if (fine.model.reference.p < 2) { // no lower degree, no bars
        const BendPass alone = bend_pass(board, fine, cases, settings, nullptr, weighed);
        return with_bars(alone, alone);
    }
    const BendPass before = bend_pass(board, coarse, cases, settings);
    return with_bars(bend_pass(board, fine, cases, settings, &before, weighed), before);
}

} // namespace vrid
