#include "solver/design/local_model.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/response/error_bar.hpp"

using namespace vrid;
using Eigen::MatrixXd;
using Eigen::Vector2d;

namespace {

// A thickness that stiffnesses follow as a power, and an angle; a stiffness and a mass.
MatchProblem power_and_sum() {
    MatchProblem problem;
    problem.values.resize(2);
    problem.values[0].ratio = true;
    problem.numbers.resize(2);
    problem.mass = 1;
    problem.measures = {{true, 1}, {false, 4}}; // 100 ln f, 100 f / 4
    problem.least = Least::mass;
    return problem;
}

double stiffness_at(const Vector2d& v) {
    return 5 * std::pow(v.x(), 3) * std::exp(0.2 * v.y() + 0.05 * v.y() * v.y());
}
double mass_at(const Vector2d& v) {
    return 2 + 3 * v.x() - v.y();
}

const Vector2d solved_at(2, 0.5);

LocalModel model_there(const MatchProblem& problem, double bars = 1, double error = 0) {
    NumbersAt found;
    found.numbers = {{stiffness_at(solved_at), error}, {mass_at(solved_at), error}};
    found.slopes.resize(2, 2);
    const double K = stiffness_at(solved_at);
    found.slopes << 3 * K / 2, 0.25 * K, 3, -1; // by the power, and 0.2 + 0.1 y
    MatrixXd curvature = MatrixXd::Zero(2, 2);
    curvature(0, 1) = 100 * 0.1; // of the measure, second derivative by the angle
    return local_model(problem, solved_at, found, curvature, bars);
}

} // namespace

TEST_CASE("a model of powers and parabolas gives a stiffness that is one, however far") {
    const MatchProblem problem = power_and_sum();
    const LocalModel model = model_there(problem);
    for (const Vector2d& v : {Vector2d(2, 0.5), Vector2d(3, -1), Vector2d(1.2, 2)}) {
        const Eigen::VectorXd measures = measures_at(problem, model, v);
        CHECK(measures(0) == Approx(100 * std::log(stiffness_at(v))));
        CHECK(measures(1) == Approx(100 * mass_at(v) / 4));
        CHECK(objective(problem, model, v) == Approx(100 * mass_at(v) / 4));
        for (std::size_t k = 0; k < 2; ++k) {
            for (std::size_t i = 0; i < 2; ++i) {
                constexpr double h = 1e-6;
                const double at = v(static_cast<Eigen::Index>(i));
                const double slope = (addition(problem, model, k, i, at + h) -
                                      addition(problem, model, k, i, at - h)) /
                                     (2 * h);
                CHECK(addition_slope(problem, model, k, i, at) == Approx(slope).epsilon(1e-6));
            }
        }
    }
}

TEST_CASE("windows are drawn in by the number's bar, by nine tenths of their width at most") {
    MatchProblem problem = power_and_sum();
    problem.windows = {{1, 6, 10}, {0, 50, HUGE_VAL}, {1, 7, 7.01}};
    const LocalModel model = model_there(problem, 2, 0.25); // two bars: 0.5
    CHECK(model.low(0) == Approx(25 * 6.5));
    CHECK(model.high(0) == Approx(25 * 9.5));
    CHECK(model.low(1) == Approx(100 * std::log(50.5)));
    CHECK(std::isinf(model.high(1)));
    CHECK(model.low(2) == Approx(25 * (7 + 0.45 * 0.01)));
    CHECK(model.high(2) == Approx(25 * (7.01 - 0.45 * 0.01)));
    const LocalModel exact = model_there(problem); // a thousandth of a percent all the same
    CHECK(exact.low(0) == Approx(150 + 1e-3).epsilon(1e-12));
    CHECK(exact.high(0) == Approx(250 - 1e-3).epsilon(1e-12));
    CHECK(model_there(problem, 1, no_bar).low(0) == Approx(150 + 1e-3).epsilon(1e-12));
    // the worst of what lies outside counts
    CHECK(worst_miss(problem, model, Vector2d(100 * std::log(60.0), 25 * 7.005)) == 0);
    CHECK(worst_miss(problem, model, Vector2d(100 * std::log(60.0), 25 * 6)) ==
          Approx(model.low(2) - 150));
    CHECK(worst_miss(problem, model, Vector2d(100 * std::log(60.0), 25 * 10)) ==
          Approx(250 - model.high(2)));
}
