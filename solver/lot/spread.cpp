#include "solver/lot/spread.hpp"

#include <cmath>

#include <Eigen/Cholesky>

#include "solver/lot/tails.hpp"

namespace vrid {

std::optional<LotSpread> lot_spread(const LotModel& model, const LotCells& cells) {
    const Index numbers = cells.residual.rows();
    double boards = 0;
    VectorXd sum = VectorXd::Zero(numbers);
    VectorXd rig = VectorXd::Zero(numbers);
    MatrixXd outer = MatrixXd::Zero(numbers, numbers);
    const std::vector<PatternSums> sums = pattern_sums(cells);
    for (std::size_t p = 0; p < sums.size(); ++p) {
        if (static_cast<Index>(cells.patterns[p].seen.size()) == numbers) {
            boards += sums[p].boards;
            sum += sums[p].sum;
            outer += sums[p].outer;
            rig += sums[p].boards * cells.patterns[p].rig_variance;
        }
    }
    const auto k = static_cast<double>(numbers);
    if (boards < 3 * k) {
        return std::nullopt;
    }
    const double nu = boards - 1;
    const MatrixXd S = (outer - sum * sum.transpose() / boards) / nu;
    MatrixXd S0 = board_covariance(model);
    S0.diagonal() += rig / boards;
    const VectorXd inverse = S0.diagonal().cwiseSqrt().cwiseInverse();
    const Eigen::LLT<MatrixXd> declared(inverse.asDiagonal() * S0 * inverse.asDiagonal());
    const MatrixXd half = declared.matrixL().solve(inverse.asDiagonal() * S * inverse.asDiagonal());
    const MatrixXd A = declared.matrixL().solve(half.transpose());
    const Eigen::LLT<MatrixXd> own(A);
    const double log_det = 2 * own.matrixLLT().diagonal().array().log().sum();
    const double bartlett = 1 - (2 * k + 1 - 2 / (k + 1)) / (6 * nu);
    LotSpread spread;
    spread.statistic = bartlett * nu * (A.trace() - log_det - k);
    spread.degrees = static_cast<int>(k * (k + 1) / 2);
    spread.p = std::isfinite(spread.statistic) ? chi2_tail(spread.statistic, spread.degrees) : 0;
    spread.boards = static_cast<int>(boards);
    return spread;
}

std::vector<NumberSpread> number_spreads(const LotModel& model, const LotCells& cells) {
    constexpr double tail = 0.025;
    const VectorXd declared = board_covariance(model).diagonal();
    std::vector<NumberSpread> all;
    const std::vector<PatternSums> sums = pattern_sums(cells);
    for (Index k = 0; k < cells.residual.rows(); ++k) {
        double count = 0;
        double sum = 0;
        double squares = 0;
        double rig = 0;
        for (std::size_t p = 0; p < sums.size(); ++p) {
            for (std::size_t s = 0; s < cells.patterns[p].seen.size(); ++s) {
                if (cells.patterns[p].seen[s] == k) {
                    count += sums[p].boards;
                    sum += sums[p].sum(k);
                    squares += sums[p].outer(k, k);
                    rig += sums[p].boards * cells.patterns[p].rig_variance(static_cast<Index>(s));
                }
            }
        }
        const double nu = count - 1;
        const double variance = nu > 0 ? std::max(0.0, (squares - sum * sum / count) / nu) : 0;
        NumberSpread spread;
        spread.mean = sum / count;
        spread.sd = std::sqrt(variance);
        spread.cells = static_cast<int>(count);
        spread.ratio = variance / (declared(k) + rig / count);
        if (nu > 0) {
            spread.low = spread.ratio * nu / chi2_quantile(1 - tail, nu);
            spread.high = spread.ratio * nu / chi2_quantile(tail, nu);
        }
        all.push_back(spread);
    }
    return all;
}

} // namespace vrid
