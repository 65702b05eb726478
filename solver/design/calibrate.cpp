#include "solver/design/calibrate.hpp"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <limits>
#include <sstream>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/design/bench_values.hpp"
#include "solver/design/line_kinds.hpp"
#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

constexpr double unfit = 3;          // standard deviations
constexpr double same_effect = 0.98; // cosine between two columns
constexpr double untouched = 0.95;   // sd after over sd before
constexpr int most_rounds = 20;
constexpr double settled = 1e-4; // largest step, in deviations after the fit
// Of the squares' sum: what gains less ends the fit where no step makes it better: the core's
// profile has a kink where two stations come level.
constexpr double idle = 1e-4;
constexpr double told_left = 0.01; // of a deviation that a step would still go

// The board's numbers at some values, with derivatives by them; one mesh throughout.
class Model {
  public:
    Model(Session& session, const Bench& bench)
        : session_(session), start_(session.board()), free_(free_values(start_, bench)) {
        for (const BenchReading& reading : bench.readings) {
            requests_.push_back(reading.number);
        }
    }

    // \throws InputError for values of which there is no board
    BoardNumbers numbers(const VectorXd& values) {
        session_.set({free_.ids, values});
        hold_waist(session_.board(), start_);
        NumbersWanted wanted;
        wanted.lines = lines_among(free_.ids);
        BoardNumbers found = session_.numbers(requests_, wanted);
        slopes = slopes_by(found, free_.ids);
        ++solves;
        return found;
    }

    [[nodiscard]] const FreeValues& free() const { return free_; }
    MatrixXd slopes; // of the last numbers
    int solves = 0;

  private:
    Session& session_;
    Board start_;
    FreeValues free_;
    std::vector<NumberId> requests_;
};

// One linear problem: what readings and priors want of a step, in units of scale.
struct Normal {
    MatrixXd matrix;
    VectorXd right;
    MatrixXd J; // readings by step, each over its sd
};

Normal normal_equations(const Model& model, const Bench& bench, const BoardNumbers& numbers,
                        const VectorXd& values) {
    const FreeValues& free = model.free();
    const auto count = static_cast<Index>(bench.readings.size());
    Normal normal;
    normal.J.resize(count, values.size());
    VectorXd lack(count);
    for (Index i = 0; i < count; ++i) {
        const BenchReading& reading = bench.readings[static_cast<std::size_t>(i)];
        const double value = numbers.numbers[static_cast<std::size_t>(i)].quantity.value;
        normal.J.row(i) = model.slopes.row(i).cwiseProduct(free.scale.transpose()) / reading.sd;
        lack(i) = (reading.value - value) / reading.sd;
    }
    const VectorXd prior = free.weight.cwiseProduct(free.scale); // 1 or 0
    normal.matrix = normal.J.transpose() * normal.J;
    normal.matrix.diagonal() += prior.cwiseAbs2();
    const VectorXd away = (values - free.start).cwiseProduct(free.weight);
    normal.right = normal.J.transpose() * lack - prior.cwiseProduct(away);
    return normal;
}

// Which values may move: those not at a limit that the step wants to pass.
std::vector<Index> movable(const FreeValues& free, const VectorXd& values, const VectorXd& want) {
    std::vector<Index> all;
    for (Index i = 0; i < values.size(); ++i) {
        const bool stuck =
            (values(i) <= free.min(i) && want(i) < 0) || (values(i) >= free.max(i) && want(i) > 0);
        if (!stuck) {
            all.push_back(i);
        }
    }
    return all;
}

void check_open(const FreeValues& free, const Normal& normal, const Bench& bench) {
    const SymmetricEigen eigen = symmetric_eigen(normal.matrix);
    if (eigen.values(0) > 1e-12 * eigen.values.maxCoeff()) {
        return;
    }
    Index open = 0;
    eigen.vectors.col(0).cwiseAbs().maxCoeff(&open);
    throw InputError(bench.file, "the readings leave " +
                                     free.names[static_cast<std::size_t>(open)] +
                                     " open; accepted: a standard deviation for it in [tolerance], "
                                     "or a reading that it moves");
}

// The step of least squares inside the limits: values that meet one are held and the rest solved
// again.
VectorXd limited_step(const FreeValues& free, const Normal& normal, const VectorXd& values) {
    VectorXd step = VectorXd::Zero(values.size());
    std::vector<Index> moving = movable(free, values, normal.right);
    while (!moving.empty()) {
        const MatrixXd matrix = normal.matrix(moving, moving);
        VectorXd right = normal.right(moving) - normal.matrix(moving, Eigen::all) * step;
        right += matrix * step(moving); // the moving ones are solved for anew
        const VectorXd part = solve_symmetric(matrix, right);
        std::vector<Index> rest;
        for (std::size_t k = 0; k < moving.size(); ++k) {
            const Index i = moving[k];
            const double to = values(i) + part(static_cast<Index>(k)) * free.scale(i);
            const double inside = std::clamp(to, free.min(i), free.max(i));
            if (inside == to) {
                rest.push_back(i);
                step(i) = part(static_cast<Index>(k));
            } else {
                step(i) = (inside - values(i)) / free.scale(i);
            }
        }
        if (rest.size() == moving.size()) {
            break;
        }
        moving = std::move(rest);
    }
    return step;
}

double objective(const FreeValues& free, const Bench& bench, const BoardNumbers& numbers,
                 const VectorXd& values) {
    double sum = (values - free.start).cwiseProduct(free.weight).squaredNorm();
    for (std::size_t i = 0; i < bench.readings.size(); ++i) {
        const BenchReading& reading = bench.readings[i];
        const double lack = (reading.value - numbers.numbers[i].quantity.value) / reading.sd;
        sum += lack * lack;
    }
    return sum;
}

// What the numbers' rounding leaves open of the objective.
double blur(const Bench& bench, const BoardNumbers& numbers) {
    constexpr double rounding = 1e-8; // share of a number, of frequencies the most
    double sum = 0;
    for (std::size_t i = 0; i < bench.readings.size(); ++i) {
        const BenchReading& reading = bench.readings[i];
        const double value = numbers.numbers[i].quantity.value;
        sum += 2 * std::abs((reading.value - value) * rounding * value) / (reading.sd * reading.sd);
    }
    return sum;
}

struct Answer {
    VectorXd values;
    BoardNumbers numbers;
    Normal normal;
    double left = 0; // largest step that was not made, in deviations after the fit
};

Answer least(Model& model, const Bench& bench, const BoardNumbers& first) {
    const FreeValues& free = model.free();
    Answer now{free.start, first, normal_equations(model, bench, first, free.start)};
    check_open(free, now.normal, bench);
    double sum = objective(free, bench, now.numbers, now.values);
    std::string closed; // why the last step was too long
    for (int round = 0; round < most_rounds; ++round) {
        const VectorXd step = limited_step(free, now.normal, now.values);
        const MatrixXd covariance = inverse_of_symmetric(now.normal.matrix);
        const VectorXd sd = covariance.diagonal().cwiseSqrt();
        const double largest = step.cwiseQuotient(sd).cwiseAbs().maxCoeff();
        const double gain = step.dot(2 * now.normal.right - now.normal.matrix * step); // linear
        if (largest < settled || gain < blur(bench, now.numbers)) {
            now.left = largest < settled ? 0 : largest;
            return now;
        }
        bool lower = false;
        const double before = sum;
        double share = 1;
        for (int halving = 0; halving < 10 && !lower; ++halving, share /= 2) {
            VectorXd values = now.values + share * step.cwiseProduct(free.scale);
            values = values.cwiseMax(free.min).cwiseMin(free.max);
            BoardNumbers numbers;
            try {
                numbers = model.numbers(values);
            } catch (const InputError& error) { // a closed door
                closed = error.problems().front().message;
                continue;
            }
            const double there = objective(free, bench, numbers, values);
            lower = there <= sum * (1 + 1e-9) + 1e-9;
            if (lower) {
                now = {values, std::move(numbers), {}, 0};
                now.normal = normal_equations(model, bench, now.numbers, values);
                sum = there;
            }
        }
        now.left = largest;
        const bool last = closed.empty() && (!lower || round + 1 == most_rounds);
        if (last && before - sum < idle * sum) {
            return now;
        }
        if (!lower) {
            break;
        }
    }
    throw SolveError("calibrate",
                     closed.empty()
                         ? "the fit did not converge in " + std::to_string(most_rounds) + " rounds"
                         : "the readings ask for a board that cannot be (" + closed +
                               "); accepted: min or max that keep away from it");
}

// A bench file, what the board gave at first and where the fit ended.
struct Fit {
    const Bench& bench;
    const BoardNumbers& first;
    const Answer& answer;
};

std::vector<FittedValue> fitted_values(const FreeValues& free, const Answer& answer) {
    std::vector<FittedValue> values;
    for (Index i = 0; i < free.start.size(); ++i) {
        const auto k = static_cast<std::size_t>(i);
        FittedValue value{free.ids[k], free.start(i), answer.values(i), {}, 0, false};
        if (free.weight(i) > 0) {
            value.prior_sd = 1 / free.weight(i);
        }
        value.at_limit = answer.values(i) <= free.min(i) || answer.values(i) >= free.max(i);
        values.push_back(value);
    }
    return values;
}

// Covariance of the values in units of scale; those at a limit are held: no deviation.
MatrixXd covariance_of(const Answer& answer, const std::vector<FittedValue>& values) {
    std::vector<Index> moving;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!values[i].at_limit) {
            moving.push_back(static_cast<Index>(i));
        }
    }
    const auto count = static_cast<Index>(values.size());
    MatrixXd covariance = MatrixXd::Zero(count, count);
    if (!moving.empty()) {
        covariance(moving, moving) = inverse_of_symmetric(answer.normal.matrix(moving, moving));
    }
    return covariance;
}

// Deviations of the values, and which of them go together.
void add_deviations(const FreeValues& free, const MatrixXd& covariance, Calibration& result) {
    result.correlation = MatrixXd::Identity(covariance.rows(), covariance.cols());
    for (Index i = 0; i < covariance.rows(); ++i) {
        result.values[static_cast<std::size_t>(i)].sd = std::sqrt(covariance(i, i)) * free.scale(i);
        for (Index j = 0; j < covariance.cols(); ++j) {
            const double size = std::sqrt(covariance(i, i) * covariance(j, j));
            if (i != j) {
                result.correlation(i, j) = size > 0 ? covariance(i, j) / size : 0;
            }
        }
    }
}

// The readings before and after the fit.
void add_readings(const Fit& fit, const MatrixXd& covariance, Calibration& result) {
    for (std::size_t i = 0; i < fit.bench.readings.size(); ++i) {
        FittedReading reading{fit.bench.readings[i], fit.first.numbers[i].quantity,
                              fit.answer.numbers.numbers[i].quantity, 0, true};
        const double lack = (reading.reading.value - reading.after.value) / reading.reading.sd;
        result.misfit += lack * lack;
        // the fit has followed the reading by its leverage
        const auto row = fit.answer.normal.J.row(static_cast<Index>(i));
        const double leverage = row * covariance * row.transpose();
        const double left = std::sqrt(std::max(1 - leverage, 1e-6));
        reading.residual = lack / left;
        reading.fits = std::abs(reading.residual) <= unfit;
        result.readings.push_back(reading);
    }
}

void add_doubts(const FreeValues& free, const Answer& answer, Calibration& result) {
    const std::vector<bool> held = each_of(result.values, &FittedValue::at_limit);
    result.open = open_directions(answer.normal.J, free.weight.cwiseProduct(free.scale), held);
    for (Index i = 0; i < answer.normal.J.cols(); ++i) {
        const FittedValue& value = result.values[static_cast<std::size_t>(i)];
        if (value.prior_sd && !value.at_limit && value.sd > untouched * *value.prior_sd) {
            result.untouched.push_back(static_cast<std::size_t>(i));
        }
        for (Index j = i + 1; j < answer.normal.J.cols(); ++j) {
            const double size = answer.normal.J.col(i).norm() * answer.normal.J.col(j).norm();
            const double cosine =
                size > 0 ? answer.normal.J.col(i).dot(answer.normal.J.col(j)) / size : 0;
            if (std::abs(cosine) > same_effect) {
                result.indistinct.push_back(
                    {static_cast<std::size_t>(i), static_cast<std::size_t>(j), cosine});
            }
        }
    }
}

} // namespace

Calibration calibrate(Session& session, const Bench& bench) {
    Model model(session, bench);
    const FreeValues& free = model.free();
    const BoardNumbers first = model.numbers(free.start);
    const Answer answer = least(model, bench, first);
    Calibration result;
    result.solves = model.solves;
    result.warnings = answer.numbers.warnings;
    if (answer.left > told_left) {
        std::ostringstream text;
        text << "the fit ends where no step makes it better, as at a kink of the core's profile: "
                "values may be off by "
             << std::setprecision(2) << answer.left << " of their deviations";
        result.warnings.push_back(text.str());
    }
    result.values = fitted_values(free, answer);
    const MatrixXd covariance = covariance_of(answer, result.values);
    add_deviations(free, covariance, result);
    add_readings({bench, first, answer}, covariance, result);
    add_doubts(free, answer, result);
    return result;
}

} // namespace vrid
