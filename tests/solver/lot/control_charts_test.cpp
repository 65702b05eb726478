#include "solver/lot/control_charts.hpp"

#include <optional>
#include <random>
#include <vector>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::VectorXd;

namespace {

VectorXd vector_of(const std::vector<double>& values) {
    return Eigen::Map<const VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

// Mean number of values until a sum signals, of normal ones with a shift; more are drawn until one
// does.
double run_length(double shift, int runs) {
    std::mt19937_64 random(17);
    std::normal_distribution<double> normal(shift);
    double all = 0;
    std::vector<double> values;
    for (int run = 0; run < runs; ++run) {
        values.clear();
        std::optional<Eigen::Index> signal;
        while (!signal) {
            values.resize(values.empty() ? 32 : 2 * values.size());
            for (std::size_t i = values.size() == 32 ? 0 : values.size() / 2; i < values.size();
                 ++i) {
                values[i] = normal(random);
            }
            signal = cusum(vector_of(values), 0, 0.5, 4).signal;
        }
        all += static_cast<double>(*signal + 1);
    }
    return all / runs;
}

} // namespace

TEST_CASE("the moving average and its limits are those of a published example") {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4
    const VectorXd values = vector_of({52,   47,   53,   49.3, 50.1, 47,   51,   50.1, 51.2, 50.5,
                                       49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1});
    const Ewma chart = ewma(values, 50, 0.3, 2.0539);
    CHECK(chart.line(19) == Approx(51.98824).margin(5e-6));
    CHECK(50 + chart.half_width(0) == Approx(51.84851).margin(5e-6));
    // the limits printed are those reached in the end: exact to 0.7^40
    CHECK(50 + chart.half_width(19) == Approx(52.58843).margin(1e-5));
    CHECK(50 - chart.half_width(19) == Approx(47.41157).margin(1e-5));
    CHECK(((chart.line.array() - 50).abs() < chart.half_width.array()).all());
}

TEST_CASE("a missing value leaves the moving average and its limits where they were") {
    const Ewma chart = ewma(vector_of({1, std::nan(""), 2}), 0, 0.2, 1);
    CHECK(chart.line(1) == chart.line(0));
    CHECK(chart.half_width(1) == chart.half_width(0));
    CHECK(chart.line(2) == Approx(0.2 * 2 + 0.8 * 0.2));
}

TEST_CASE("cumulative sums are those of a published example") {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3
    const VectorXd values = vector_of(
        {324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
         324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350});
    const Cusum sums = cusum(values, 325, 0.3175, 4.1959);
    CHECK(sums.upper(12) == Approx(3.0075).margin(1e-9));
    CHECK(sums.upper(13) == Approx(4.9400).margin(1e-9));
    CHECK(sums.upper(19) == Approx(19.0350).margin(1e-9));
    REQUIRE(sums.signal);
    CHECK(*sums.signal == 13);
}

TEST_CASE("cumulative sums run as long as published before they signal") {
    // Pair of one-sided sums, k 0.5, h 4: 167.68 without a shift, 8.383 at one deviation (168 and
    // 8.38 in D. C. Montgomery, Introduction to Statistical Quality Control, from memory).
    CHECK(run_length(0, 20000) == Approx(167.68).margin(3.6)); // three of its deviations
    CHECK(run_length(1, 20000) == Approx(8.383).margin(0.1));
}
