#include "solver/bend.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
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

// Where a list has the case and travel of another's entry.
template <class List, class Entry>
std::optional<std::size_t> same_case(const List& list, const Entry& entry) {
    const auto found = std::ranges::find_if(list, [&](const auto& one) {
        return one.name == entry.name && one.travel == entry.travel;
    });
    return found == list.end() ? std::nullopt : std::optional(std::size_t(found - list.begin()));
}

} // namespace

Bending with_bars(BendPass fine, const BendPass& coarse) {
    Bending bent{{}, std::move(fine.missed), std::move(fine.warnings)};
    for (const BentMiss& miss : coarse.missed) {
        if (!same_case(bent.missed, miss)) {
            bent.missed.push_back(miss);
        }
    }
    const int p = fine.model->reference.p;
    for (std::size_t i = 0; i < fine.cases.size(); ++i) {
        const auto below = same_case(coarse.cases, fine.cases[i]);
        if (!below) {
            continue;
        }
        BentCase one = std::move(fine.cases[i]);
        one.coarse_motion = coarse.cases[*below].motion;
        for (std::size_t k = 0; k < one.numbers.size(); ++k) {
            Quantity& number = one.numbers[k].quantity;
            const bool flat = one.numbers[k].name == "flattening";
            number.error =
                flat ? flattening_bar(p, fine.lines[i], coarse.lines[*below])
                     : error_bar(p, number.value, coarse.cases[*below].numbers[k].quantity.value);
            if (one.numbers[k].name == "tangent") {
                number.error =
                    tangent_bar(number.error, number.value, one.numbers.front().quantity); // force
            }
        }
        bent.cases.push_back(std::move(one));
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

void throw_if_missed(const std::vector<BentMiss>& missed) {
    std::vector<std::string> reasons;
    for (const BentMiss& miss : missed) {
        add_once(reasons, miss.why); // a bending case and its twists have one
    }
    if (!reasons.empty()) {
        throw SolveError("bending", joined(reasons, "\n"));
    }
}

} // namespace vrid
