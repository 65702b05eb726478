#include "solver/design/thickness_grid.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace vrid {

namespace {

using Columns = SectionColumns;

// The stacks of all sets, each once.
std::vector<StackShare> shares_of(const std::vector<const SectionWeights*>& sets) {
    std::map<StackKey, std::size_t> known;
    std::vector<StackShare> shares;
    for (std::size_t s = 0; s < sets.size(); ++s) {
        std::vector<std::size_t> share(sets[s]->stacks.size());
        for (std::size_t k = 0; k < share.size(); ++k) {
            const auto [found, fresh] = known.try_emplace(sets[s]->stacks[k], shares.size());
            if (fresh) {
                shares.push_back({found->first,
                                  std::vector<std::vector<Index>>(sets.size()),
                                  {0, 0, 1},
                                  {},
                                  {}});
            }
            share[k] = found->second;
        }
        for (std::size_t p = 0; p < sets[s]->places.size(); ++p) {
            const auto stack = static_cast<std::size_t>(sets[s]->places[p].stack);
            shares[share[stack]].places[s].push_back(static_cast<Index>(p));
        }
    }
    return shares;
}

Columns sections_at(const Layup<double>& layup, double celsius, const StackKey& key,
                    const VectorXd& thickness) {
    Columns columns(section_terms, thickness.size());
    for (Index i = 0; i < thickness.size(); ++i) {
        columns.col(i) = section_column(section(stack_laminae(layup, key, thickness(i))), celsius);
    }
    return columns;
}

// Off-diagonal terms that are rounding only do not count; of free forces no term is a measure for
// the others' size, and all are polynomials of third degree.
bool counts(const Columns& exact, Index row) {
    return row < first_free_term &&
           exact.row(row).cwiseAbs().maxCoeff() > 1e-9 * exact.row(row - row % 6).maxCoeff();
}

// The least number of points that gives a stack's section between them.
ThicknessGrid fitting_grid(const Layup<double>& layup, double celsius, const StackKey& key,
                           double from, double to) {
    constexpr double accuracy = 1e-11;
    constexpr int most = 64; // rounding takes over
    if (to - from < 1e-12) {
        return {from, to, 1};
    }
    const VectorXd between = VectorXd::LinSpaced(7, from, to);
    const Columns exact = sections_at(layup, celsius, key, between);
    for (int count = 12;; count += 4) {
        ThicknessGrid grid(from, to, count);
        const Columns found =
            sections_at(layup, celsius, key, grid.points) * grid.to_values(between).transpose();
        double worst = 0;
        for (Index row = 0; row < section_terms; ++row) {
            const double size = exact.row(row).cwiseAbs().maxCoeff();
            const double error = (exact.row(row) - found.row(row)).cwiseAbs().maxCoeff();
            worst = std::max(worst, counts(exact, row) ? error / size : 0);
        }
        if (worst < accuracy || count >= most) {
            return grid;
        }
    }
}

// The grid of a stack between the least and the largest thickness at its places.
ThicknessGrid grid_of(const Layup<double>& layup, const StackShare& share,
                      const std::vector<const SectionWeights*>& sets) {
    double from = 0;
    double to = 0;
    bool any = false;
    for (std::size_t s = 0; s < sets.size(); ++s) {
        for (const Index place : share.places[s]) {
            const double t =
                core_thickness(layup, sets[s]->places[static_cast<std::size_t>(place)].point());
            from = any ? std::min(from, t) : t;
            to = any ? std::max(to, t) : t;
            any = true;
        }
    }
    return fitting_grid(layup, sets.front()->celsius, share.key, from, to);
}

} // namespace

ThicknessGrid::ThicknessGrid(double a, double b, int count) : from(a), to(b), points(count) {
    for (int i = 0; i < count; ++i) {
        points(i) = (a + b) / 2 - (b - a) / 2 * std::cos(std::numbers::pi * (i + 0.5) / count);
    }
}

MatrixXd ThicknessGrid::to_values(const VectorXd& thickness) const {
    MatrixXd weights(thickness.size(), points.size());
    for (Index r = 0; r < thickness.size(); ++r) {
        double sum = 0;
        for (Index i = 0; i < points.size(); ++i) { // barycentric
            const double apart = thickness(r) - points(i);
            if (apart == 0) {
                weights.row(r).setZero();
                weights(r, i) = sum = 1;
                break;
            }
            const double angle = std::numbers::pi * (static_cast<double>(i) + 0.5) /
                                 static_cast<double>(points.size());
            weights(r, i) = (i % 2 == 0 ? 1 : -1) * std::sin(angle) / apart;
            sum += weights(r, i);
        }
        weights.row(r) /= sum;
    }
    return weights;
}

StackFrame stack_frame(const Board& board, const std::vector<const SectionWeights*>& sets) {
    Layup<double> layup = make_layup<double>(board, {}, sets.front()->pace);
    std::vector<StackShare> shares = shares_of(sets);
    Index numbers = 0;
    for (const SectionWeights* set : sets) {
        numbers += set->weight.cols();
    }
    for (StackShare& share : shares) {
        share.grid = grid_of(layup, share, sets);
    }
    return {std::move(layup), std::move(shares), numbers};
}

} // namespace vrid
