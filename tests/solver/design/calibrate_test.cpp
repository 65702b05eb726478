#include <cmath>
#include <random>

#include <catch2/catch.hpp>

#include "io/write/number_name.hpp"
#include "mesh/board/error.hpp"
#include "solver/design/calibrate.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

namespace {

const std::vector<NumberId>& section_numbers() {
    static const std::vector<NumberId> all{request(Kind::mass), request(Kind::EI, 0),
                                           request(Kind::GJ, 0), request(Kind::thickness, 0)};
    return all;
}

struct Prior {
    std::string path;
    double sd;
};

double start_of(const Board& board, const std::string& path) {
    const auto found = find_design(board, path);
    REQUIRE(found);
    return found->value;
}

Bench bench_of(const Board& board, const std::vector<Prior>& priors) {
    Bench bench;
    for (const Prior& prior : priors) {
        const double start = start_of(board, prior.path);
        const std::vector<DesignId> ids = ids_of(board, {prior.path});
        bench.free.push_back({prior.path, ids, {prior.path}, 0.5 * start, 1.5 * start, {}, {}, ""});
        bench.priors.push_back({ids.front(), prior.sd * start, "test"});
    }
    return bench;
}

Calibration fitted(const Board& board, const Bench& bench) {
    Session session(board);
    return calibrate(session, bench);
}

} // namespace

TEST_CASE("200 planted boards come back inside two of the fit's own deviations, 95 of 100 times") {
    const Board board = example("coupon-sandwich");
    const std::vector<Prior> priors{{"material.e-glass.E_GPa", 0.03},
                                    {"material.epoxy.E_GPa", 0.05},
                                    {"core.thickness_scale", 0.02}};
    std::mt19937 random(2026);
    std::normal_distribution<double> normal;
    int inside = 0;
    int all = 0;
    for (int trial = 0; trial < 200; ++trial) {
        Bench bench = bench_of(board, priors);
        std::vector<std::string> paths;
        Eigen::VectorXd planted(static_cast<Eigen::Index>(priors.size()));
        for (std::size_t i = 0; i < priors.size(); ++i) {
            paths.push_back(priors[i].path);
            planted(static_cast<Eigen::Index>(i)) =
                start_of(board, priors[i].path) * (1 + priors[i].sd * normal(random));
        }
        NumbersOptions plain;
        plain.slopes = false;
        const BoardNumbers truth =
            board_numbers(with_values(board, {ids_of(board, paths), planted}, library()),
                          section_numbers(), plain);
        for (const BoardNumber& number : truth.numbers) {
            const double sd = 0.01 * number.quantity.value;
            bench.readings.push_back(
                {number.request, number.quantity.value + sd * normal(random), sd, ""});
        }
        const Calibration fit = fitted(board, bench);
        for (std::size_t i = 0; i < priors.size(); ++i) {
            const double off =
                std::abs(fit.values[i].after - planted(static_cast<Eigen::Index>(i)));
            inside += off <= 2 * fit.values[i].sd;
            ++all;
        }
    }
    // a normal distribution has 95.45 % inside two deviations; three deviations of 600 trials
    const double expected = 0.9545;
    const double share = double(inside) / all;
    CAPTURE(share);
    CHECK(std::abs(share - expected) < 3 * std::sqrt(expected * (1 - expected) / all));
}

TEST_CASE("exact readings without noise give the planted values back") {
    const Board board = example("coupon-triax");
    std::vector<Prior> priors{{"material.e-glass.E_GPa", 0.1}, {"material.epoxy.E_GPa", 0.1}};
    Bench bench = bench_of(board, priors);
    Eigen::VectorXd planted(2);
    planted << 1.08 * start_of(board, priors[0].path), 0.85 * start_of(board, priors[1].path);
    NumbersOptions plain;
    plain.slopes = false;
    const BoardNumbers truth = board_numbers(
        with_values(board, {ids_of(board, {priors[0].path, priors[1].path}), planted}, library()),
        section_numbers(), plain);
    for (const BoardNumber& number : truth.numbers) {
        bench.readings.push_back(
            {number.request, number.quantity.value, 1e-6 * number.quantity.value, ""});
    }
    const Calibration fit = fitted(board, bench);
    CHECK(fit.values[0].after == Approx(planted(0)).epsilon(1e-4));
    CHECK(fit.values[1].after == Approx(planted(1)).epsilon(1e-4));
}

TEST_CASE("a group of values may hold one that moves no number, alone it is refused") {
    const Board board = example("coupon-sandwich");
    Bench bench;
    BenchReading mass{request(NumberId::Kind::EI, 0), 30, 1, ""};
    bench.readings = {mass};
    const std::vector<std::string> names{"layer.core.angle_deg", "layer.lower glass.angle_deg"};
    bench.free = {{"layer.*.angle_deg", ids_of(board, names), names, -0.5, 0.5, {}, {}, ""}};
    bench.priors = {{ids_of(board, names)[1], 0.02, "test"}};
    const Calibration fit = fitted(board, bench);
    REQUIRE(fit.values.size() == 1);
    CHECK(path_of(fit.values[0].id) == names[1]);
    bench.free = {{names[0], ids_of(board, {names[0]}), {names[0]}, -0.5, 0.5, {}, {}, ""}};
    CHECK_THROWS_WITH(fitted(board, bench), Catch::Contains("moves no number"));
}

// Where a station comes level with its neighbour the smooth profile bends otherwise (Fritsch and
// Butland 1984: slopes of nothing), and what it is worth to move has a corner.
TEST_CASE("a fit whose least squares lie at a kink of the core's profile ends there") {
    const Board board = example("nh-157-querwind");
    const std::vector<std::string> paths{"core.thickness_mm[8]", "core.thickness_mm[9]"};
    const std::vector<NumberId> numbers{request(Kind::thickness, -0.08),
                                        request(Kind::thickness, 0.06),
                                        request(Kind::thickness, 0.2)};
    const double sd = 2e-5;
    const double tolerance = 5e-5;
    const auto squares = [&](const Bench& bench, const Eigen::VectorXd& values) {
        NumbersOptions plain;
        plain.slopes = false;
        const BoardNumbers there = board_numbers(
            with_values(board, {ids_of(board, paths), values}, library()), numbers, plain);
        double sum = 0;
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            sum += std::pow((there.numbers[i].quantity.value - bench.readings[i].value) / sd, 2);
        }
        for (std::size_t i = 0; i < paths.size(); ++i) {
            const double away = values(static_cast<Eigen::Index>(i)) - start_of(board, paths[i]);
            sum += std::pow(away / tolerance, 2);
        }
        return sum;
    };
    NumbersOptions plain;
    plain.slopes = false;
    const BoardNumbers drawn = board_numbers(board, numbers, plain);
    std::mt19937 random(7);
    std::normal_distribution<double> normal;
    for (int trial = 0; trial < 40; ++trial) {
        CAPTURE(trial);
        Bench bench;
        for (const std::string& path : paths) {
            const double start = start_of(board, path);
            bench.free.push_back(
                {path, ids_of(board, {path}), {path}, 0.5 * start, 1.5 * start, {}, {}, ""});
            bench.priors.push_back({ids_of(board, {path}).front(), tolerance, "test"});
        }
        for (const BoardNumber& number : drawn.numbers) {
            bench.readings.push_back(
                {number.request, number.quantity.value + 1e-4 * normal(random), sd, ""});
        }
        const Calibration fit = fitted(board, bench);
        Eigen::VectorXd best(2);
        best << fit.values[0].after, fit.values[1].after;
        const double least = squares(bench, best);
        for (const double by : {-2e-6, 2e-6}) { // a tenth of a reading's deviation
            for (const Eigen::Index i : {0, 1}) {
                CHECK(squares(bench, best + by * Eigen::VectorXd::Unit(2, i)) > 0.999 * least);
            }
        }
    }
}

TEST_CASE("the reading that does not fit is named, and no other") {
    const Board board = example("coupon-sandwich");
    Bench bench = bench_of(board, {{"material.e-glass.E_GPa", 0.03}});
    NumbersOptions plain;
    plain.slopes = false;
    const BoardNumbers truth = board_numbers(board, section_numbers(), plain);
    for (const BoardNumber& number : truth.numbers) {
        const double wrong = number.request.kind == Kind::mass ? 1.06 : 1;
        bench.readings.push_back(
            {number.request, wrong * number.quantity.value, 0.01 * number.quantity.value, ""});
    }
    for (const FittedReading& reading : fitted(board, bench).readings) {
        INFO(number_name(reading.reading.number));
        CHECK(reading.fits == (reading.reading.number.kind != Kind::mass));
    }
}

TEST_CASE("values that move every reading alike are said to be indistinct, others are not") {
    const Board board = example("coupon-triax");
    // fibre and scale of every layer: E of the glass, and all glass plies, stiffen alike
    Bench bench = bench_of(board, {{"material.e-glass.E_GPa", 0.05},
                                   {"material.epoxy.E_GPa", 0.05},
                                   {"material.e-glass.density_kgm3", 0.05}});
    NumbersOptions plain;
    plain.slopes = false;
    const std::vector<NumberId> bending{section_numbers()[1]};
    const BoardNumbers truth = board_numbers(board, bending, plain);
    bench.readings.push_back(
        {bending[0], truth.numbers[0].quantity.value, 0.01 * truth.numbers[0].quantity.value, ""});
    CHECK(fitted(board, bench).indistinct.size() == 3); // one reading tells nothing apart
    const BoardNumbers both = board_numbers(board, section_numbers(), plain);
    bench.readings.clear();
    for (const BoardNumber& number : both.numbers) {
        bench.readings.push_back(
            {number.request, number.quantity.value, 0.01 * number.quantity.value, ""});
    }
    for (const Indistinct& pair : fitted(board, bench).indistinct) {
        CHECK(pair.one != 2);
        CHECK(pair.other != 2); // the density moves mass and thickness: no other value does
    }
}

TEST_CASE("without a prior and without a reading that it moves a value is refused") {
    const Board board = example("coupon-sandwich");
    Bench bench = bench_of(board, {{"material.e-glass.E_GPa", 0.03}});
    bench.priors.clear();
    bench.readings.push_back({section_numbers()[3], 5e-3, 1e-4, ""});
    CHECK_THROWS_AS(fitted(board, bench), InputError);
}

TEST_CASE("an outline that was built otherwise than drawn comes back from its sidecut radius") {
    const Board board = example("nh-157-biax");
    const std::string waist = "planform.waist_width_mm";
    Bench bench;
    bench.free.push_back({waist, ids_of(board, {waist}), {waist}, 0.1, 0.5, {}, {}, ""});
    bench.readings = {{request(Kind::sidecut_radius), 8.8426, 1e-3, ""}}; // of a waist of 252 mm
    const Calibration fit = fitted(board, bench);
    CHECK(fit.values[0].after == Approx(0.252).epsilon(1e-4));
    CHECK(fit.readings[0].after.value == Approx(8.8426).epsilon(1e-6));

    bench.readings[0].value = 500; // only a waist wider than the tail has it
    CHECK_THROWS_WITH(fitted(board, bench),
                      Catch::Contains("cannot be") && Catch::Contains("narrower than the waist"));
}
