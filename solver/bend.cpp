#include "solver/bend.hpp"

#include <cmath>

#include "solver/response/error_bar.hpp"

namespace vrid {

namespace {

using Eigen::Index;

// Where the line comes to twist, its edges change against each other from degree to degree, and
// their mean may keep still by chance at one: each part counts by its own change.
double flattening_bar(int p, const Eigen::Vector3d& fine, const Eigen::Vector3d& coarse) {
    double bar = 0;
    for (Index i = 0; i < 3; ++i) {
        bar += std::abs(flattening(i)) * error_bar(p, fine(i), coarse(i));
    }
    return bar;
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
        }
    }
    return bent;
}

Bending bend_board(const Board& board, const BendModel& coarse, const BendModel& fine,
                   const std::vector<const BenchCase*>& cases, const Settings& settings,
                   bool weights) {
    if (fine.model.reference.p < 2) { // no lower degree, no bars
        const BendPass alone = bend_pass(board, fine, cases, settings, nullptr, weights);
        return with_bars(alone, alone);
    }
    const BendPass before = bend_pass(board, coarse, cases, settings);
    return with_bars(bend_pass(board, fine, cases, settings, &before, weights), before);
}

} // namespace vrid
