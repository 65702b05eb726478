#include "io/live/board_values.hpp"

#include "io/write/solved_board.hpp"
#include "io/write/units.hpp"
#include "solver/element/quadrature.hpp"
#include "solver/response/fields.hpp"

namespace vrid {

namespace {

constexpr int value_digits = 4, place_digits = 6;

/// A cell that takes the mean of its corners' values.
void add_cell(Json& cells, double value, const std::array<Eigen::Vector2d, 4>& corners) {
    const double mm = bench_unit(Unit::length).per_si;
    Json cell{round_significant(value, value_digits)};
    for (const Eigen::Vector2d& corner : corners) {
        cell.push_back(round_significant(corner.x() * mm, place_digits) + 0.0);
        cell.push_back(round_significant(corner.y() * mm, place_digits) + 0.0);
    }
    cells.push_back(std::move(cell));
}

Json sampled_cells(const MotionSample& sample, const Eigen::VectorXd& values) {
    Json cells = Json::array();
    const Eigen::Index n = sample.n, per_quad = n * n;
    for (Eigen::Index first = 0; first < sample.position.cols(); first += per_quad) {
        for (Eigen::Index j = 0; j + 1 < n; ++j) {
            for (Eigen::Index i = 0; i + 1 < n; ++i) {
                const Eigen::Index a = first + j * n + i;
                const std::array<Eigen::Index, 4> at{a, a + 1, a + n + 1, a + n};
                std::array<Eigen::Vector2d, 4> corners;
                double mean = 0;
                for (std::size_t k = 0; k < at.size(); ++k) {
                    corners[k] = sample.position.col(at[k]);
                    mean += values(at[k]) / double(at.size());
                }
                add_cell(cells, mean, corners);
            }
        }
    }
    return cells;
}

/// Of n x n Gauss points for the mean over a quad.
Eigen::VectorXd mean_weights(int n) {
    const Rule rule = gauss(n);
    const Eigen::MatrixXd product = rule.weight * rule.weight.transpose();
    return Eigen::Map<const Eigen::VectorXd>(product.data(), product.size()) / product.sum();
}

} // namespace

Json motion_json(const Board& board, const StudyResult& study, bool twist) {
    const CaseResult& result = study.cases.front();
    if (!result.skipped.empty()) {
        throw InputError(result.name, result.skipped);
    }
    constexpr int points = 4; // along a side: nine cells a quad
    const MotionSample sample = sample_motion(board, study, result, points);
    const WrittenLoad load = written_load(result);
    const double degrees = bench_unit(Unit::angle).per_si, mm = bench_unit(Unit::length).per_si;
    const Eigen::VectorXd values =
        twist ? Eigen::VectorXd(-load.factor / 2 * degrees * sample.strain.row(5).transpose())
              : Eigen::VectorXd(load.factor * mm * sample.motion.row(2).transpose());
    return {{"cells", sampled_cells(sample, values)},
            {"unit", twist ? "deg/m" : "mm"},
            {"load", load.text}};
}

Json sanding_json(const BoardNumbers& found) {
    Json cells = Json::array();
    std::string unit;
    if (!found.densities.empty()) {
        const CoreDensity& density = found.densities.front();
        const BenchUnit bench = bench_unit(found.numbers.front().quantity.unit);
        const double mm = bench_unit(Unit::length).per_si;
        constexpr double square_decimetres = 100; // in a square metre
        const double scale = bench.per_si / mm / square_decimetres;
        unit = bench.name + " for 1 mm on 1 dm2";
        const Eigen::VectorXd weights = mean_weights(density.degree + 1);
        const Eigen::Index points = weights.size();
        for (std::size_t q = 0; q < density.mesh->quads.size(); ++q) {
            std::array<Eigen::Vector2d, 4> corners;
            for (std::size_t k = 0; k < corners.size(); ++k) {
                corners[k] = density.mesh->vertices[std::size_t(density.mesh->quads[q][k])];
            }
            const auto own = density.density.col(0).segment(Eigen::Index(q) * points, points);
            add_cell(cells, scale * own.dot(weights), corners);
        }
    }
    return {{"cells", cells}, {"unit", unit}, {"load", ""}};
}

} // namespace vrid
