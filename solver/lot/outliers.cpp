#include "solver/lot/outliers.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Cholesky>

#include "solver/lot/tails.hpp"

namespace vrid {

namespace {

constexpr Index half_window = 7;
constexpr double false_alarms = 0.01; // a lot
constexpr double plainly_more = 3.84; // 95 % of chi-square with one degree

double median(std::vector<double>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

// Without one number: its reading's distance from what the others say, and D^2 of the rest.
// By the inverse of a block: D^2 falls by (M e)_k^2 / M_kk, and (M e)_k / M_kk is the distance.
struct Without {
    Index number = 0;
    double distance = 0, by = 0;
};

Without best_without(const Pattern& pattern, const MatrixXd& weight, const VectorXd& pull,
                     double distance) {
    Without best{0, HUGE_VAL, 0};
    for (const Index k : pattern.seen) {
        const double by = pull(k) / weight(k, k);
        const double rest = distance - pull(k) * by;
        if (rest < best.distance) {
            best = {k, rest, by};
        }
    }
    return best;
}

// The value that explains most of those that can be, and by how much D^2 falls with it.
struct ByValue {
    Index value = -1;
    double by = 0, explained = 0;
};

ByValue best_value(const LotModel& model, const MatrixXd& weight, const VectorXd& pull) {
    ByValue best;
    for (Index j = 0; j < model.slopes.cols(); ++j) {
        const double q = model.slopes.col(j).dot(weight * model.slopes.col(j));
        const double score = model.slopes.col(j).dot(pull);
        const double by = q > 0 ? score / q : 0;
        if (score * by > best.explained && can_move(model, j, by)) {
            best = {j, by, score * by};
        }
    }
    return best;
}

} // namespace

MatrixXd running_medians(const LotModel& model, const LotCells& cells) {
    MatrixXd S = board_covariance(model);
    S.diagonal() += model.rig_sd.cwiseAbs2();
    const VectorXd scale = S.diagonal().cwiseSqrt();
    const VectorXd inverse = scale.cwiseInverse();
    const Eigen::LLT<MatrixXd> factor(inverse.asDiagonal() * S * inverse.asDiagonal());
    const std::vector<LotWeight> weights = lot_weights(cells, board_covariance(model));
    const VectorXd centre = lot_centre(cells, weights).mean;
    const Index boards = cells.residual.cols();
    MatrixXd white(S.rows(), boards); // a row a direction: the medians run along rows
    for (Index i = 0; i < boards; ++i) {
        // what is missing as the other cells of the board expect it
        const VectorXd whole = S * (weights[cells.pattern[static_cast<std::size_t>(i)]].matrix *
                                    (cells.residual.col(i) - centre));
        white.col(i) = factor.matrixL().solve(inverse.cwiseProduct(whole));
    }
    MatrixXd medians(white.rows(), boards);
    std::vector<double> around;
    for (Index k = 0; k < white.rows(); ++k) {
        for (Index i = 0; i < boards; ++i) {
            around.clear();
            for (Index other = std::max<Index>(0, i - half_window);
                 other < std::min(boards, i + half_window + 1); ++other) {
                around.push_back(white(k, other));
            }
            medians(k, i) = median(around);
        }
    }
    medians = scale.asDiagonal() * (factor.matrixL() * medians).eval();
    medians.colwise() += centre;
    return medians;
}

std::vector<LotOutlier> lot_outliers(const LotModel& model, const LotCells& cells,
                                     const MatrixXd& medians, const MatrixXd& V) {
    const std::vector<LotWeight> weights = lot_weights(cells, V);
    const double level = false_alarms / static_cast<double>(cells.residual.cols());
    std::vector<LotOutlier> outliers;
    for (std::size_t p = 0; p < weights.size(); ++p) {
        const Pattern& pattern = cells.patterns[p];
        const auto count = static_cast<int>(pattern.seen.size());
        if (count == 0) {
            continue;
        }
        const double limit = chi2_quantile(1 - level, count);
        const double limit_without = count > 1 ? chi2_quantile(1 - level, count - 1) : 0;
        for (const Index i : pattern.boards) {
            const VectorXd pull = weights[p].matrix * (cells.residual.col(i) - medians.col(i));
            const double distance = pull.dot(cells.residual.col(i) - medians.col(i));
            if (distance <= limit) {
                continue;
            }
            LotOutlier outlier{i, distance, count, {}, {}, 0};
            const Without without = best_without(pattern, weights[p].matrix, pull, distance);
            const ByValue value = best_value(model, weights[p].matrix, pull);
            // a slip of the rig is cheap to check, unless a value says plainly more
            const bool slip = count > 1 && without.distance <= limit_without &&
                              distance - without.distance > value.explained - plainly_more;
            if (slip) {
                outlier.reading = without.number;
                outlier.by = without.by;
            } else if (value.value >= 0) {
                outlier.value = value.value;
                outlier.by = value.by;
            }
            outliers.push_back(outlier);
        }
    }
    std::ranges::sort(outliers, {}, &LotOutlier::board);
    return outliers;
}

} // namespace vrid
