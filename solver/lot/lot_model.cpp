#include "solver/lot/lot_model.hpp"

#include <cmath>
#include <map>

#include <Eigen/Cholesky>

#include "mesh/board/lists.hpp"

namespace vrid {

bool can_move(const LotModel& model, Index value, double shift) {
    constexpr double farthest = 50; // deviations
    const bool possible =
        model.least.size() == 0 || (shift >= model.least(value) && shift <= model.most(value));
    return possible && std::abs(shift) <= farthest * model.value_sd(value);
}

LotCells lot_cells(const LotModel& model, const LotReadings& readings) {
    LotCells cells;
    const Index numbers = readings.value.rows();
    const Index boards = readings.value.cols();
    cells.residual = MatrixXd::Zero(numbers, boards);
    cells.pattern.resize(static_cast<std::size_t>(boards));
    std::map<std::vector<int>, std::size_t> known;
    std::vector<int> counts(static_cast<std::size_t>(numbers));
    for (Index i = 0; i < boards; ++i) {
        for (Index k = 0; k < numbers; ++k) {
            counts[static_cast<std::size_t>(k)] = readings.count(k, i);
            if (readings.count(k, i) > 0) {
                cells.residual(k, i) = readings.value(k, i) - model.mean(k);
            }
        }
        const auto [at, fresh] = known.emplace(counts, cells.patterns.size());
        if (fresh) {
            Pattern pattern;
            for (Index k = 0; k < numbers; ++k) {
                if (readings.count(k, i) > 0) {
                    pattern.seen.push_back(k);
                }
            }
            pattern.rig_variance.resize(static_cast<Index>(pattern.seen.size()));
            for (std::size_t s = 0; s < pattern.seen.size(); ++s) {
                const Index k = pattern.seen[s];
                pattern.rig_variance(static_cast<Index>(s)) =
                    model.rig_sd(k) * model.rig_sd(k) / readings.count(k, i);
            }
            cells.patterns.push_back(std::move(pattern));
        }
        cells.pattern[static_cast<std::size_t>(i)] = at->second;
        cells.patterns[at->second].boards.push_back(i);
    }
    return cells;
}

MatrixXd board_covariance(const LotModel& model) {
    const MatrixXd scaled = model.slopes * model.value_sd.asDiagonal();
    return scaled * scaled.transpose();
}

MatrixXd group_covariance(const LotModel& model, std::size_t group) {
    VectorXd sd = model.value_sd;
    for (Index j = 0; j < sd.size(); ++j) {
        if (model.group[static_cast<std::size_t>(j)] != group) {
            sd(j) = 0;
        }
    }
    const MatrixXd scaled = model.slopes * sd.asDiagonal();
    return scaled * scaled.transpose();
}

LotWeight lot_weight(const Pattern& pattern, const MatrixXd& V) {
    if (pattern.seen.empty()) {
        return {MatrixXd::Zero(V.rows(), V.cols()), 0};
    }
    MatrixXd S = V(pattern.seen, pattern.seen);
    S.diagonal() += pattern.rig_variance;
    // numbers differ by orders of magnitude: factor the correlation
    const VectorXd scale = S.diagonal().cwiseSqrt();
    const VectorXd inverse = scale.cwiseInverse();
    const Eigen::LLT<MatrixXd> factor(inverse.asDiagonal() * S * inverse.asDiagonal());
    LotWeight weight;
    weight.log_det =
        2 * (scale.array().log().sum() + factor.matrixLLT().diagonal().array().log().sum());
    weight.matrix = MatrixXd::Zero(V.rows(), V.cols());
    weight.matrix(pattern.seen, pattern.seen) =
        inverse.asDiagonal() * factor.solve(MatrixXd::Identity(S.rows(), S.cols())) *
        inverse.asDiagonal();
    return weight;
}

std::vector<LotWeight> lot_weights(const LotCells& cells, const MatrixXd& V) {
    return each_of(cells.patterns, [&](const Pattern& pattern) { return lot_weight(pattern, V); });
}

namespace {

// Of a positive matrix whose rows differ by orders of magnitude.
MatrixXd inverse_of(const MatrixXd& A, double* log_det = nullptr) {
    const VectorXd scale = A.diagonal().cwiseSqrt();
    const VectorXd inverse = scale.cwiseInverse();
    const Eigen::LLT<MatrixXd> factor(inverse.asDiagonal() * A * inverse.asDiagonal());
    if (log_det != nullptr) {
        *log_det =
            2 * (scale.array().log().sum() + factor.matrixLLT().diagonal().array().log().sum());
    }
    return inverse.asDiagonal() * factor.solve(MatrixXd::Identity(A.rows(), A.cols())) *
           inverse.asDiagonal();
}

} // namespace

LotCentre lot_centre(const LotCells& cells, const std::vector<LotWeight>& weights) {
    const Index numbers = cells.residual.rows();
    MatrixXd A = MatrixXd::Zero(numbers, numbers);
    VectorXd b = VectorXd::Zero(numbers);
    for (std::size_t p = 0; p < weights.size(); ++p) {
        const Pattern& pattern = cells.patterns[p];
        A += static_cast<double>(pattern.boards.size()) * weights[p].matrix;
        VectorXd sum = VectorXd::Zero(numbers);
        for (const Index i : pattern.boards) {
            sum += cells.residual.col(i);
        }
        b += weights[p].matrix * sum;
    }
    LotCentre centre;
    centre.covariance = inverse_of(A);
    centre.mean = centre.covariance * b;
    return centre;
}

std::vector<PatternSums> pattern_sums(const LotCells& cells) {
    const Index numbers = cells.residual.rows();
    std::vector<PatternSums> all;
    for (const Pattern& pattern : cells.patterns) {
        PatternSums sums{static_cast<double>(pattern.boards.size()), VectorXd::Zero(numbers),
                         MatrixXd::Zero(numbers, numbers)};
        for (const Index i : pattern.boards) {
            sums.sum += cells.residual.col(i);
            sums.outer += cells.residual.col(i) * cells.residual.col(i).transpose();
        }
        all.push_back(std::move(sums));
    }
    return all;
}

double restricted_deviance(const LotCells& cells, const std::vector<PatternSums>& sums,
                           const MatrixXd& V) {
    const Index numbers = cells.residual.rows();
    MatrixXd A = MatrixXd::Zero(numbers, numbers);
    VectorXd b = VectorXd::Zero(numbers);
    double deviance = 0;
    for (std::size_t p = 0; p < sums.size(); ++p) {
        const LotWeight weight = lot_weight(cells.patterns[p], V);
        deviance +=
            sums[p].boards * weight.log_det + weight.matrix.cwiseProduct(sums[p].outer).sum();
        A += sums[p].boards * weight.matrix;
        b += weight.matrix * sums[p].sum;
    }
    double log_det = 0;
    const MatrixXd C = inverse_of(A, &log_det);
    return deviance + log_det - b.dot(C * b);
}

LotPart lot_part(const LotModel& model, const LotReadings& readings,
                 const std::vector<Index>& boards) {
    LotPart part;
    part.boards = boards;
    for (Index k = 0; k < readings.value.rows(); ++k) {
        int cells = 0;
        for (const Index i : boards) {
            cells += readings.count(k, i) > 0 ? 1 : 0;
        }
        if (cells >= 2) {
            part.numbers.push_back(k);
        }
    }
    part.model = model;
    part.model.mean = model.mean(part.numbers);
    part.model.slopes = model.slopes(part.numbers, Eigen::all);
    part.model.rig_sd = model.rig_sd(part.numbers);
    part.model.bias_sd = model.bias_sd(part.numbers);
    part.readings.value = readings.value(part.numbers, boards);
    part.readings.count = readings.count(part.numbers, boards);
    return part;
}

} // namespace vrid
