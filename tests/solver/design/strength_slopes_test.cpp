// Derivatives of the load at first failure, against solves of changed boards.
#include "solver/design/strength_slopes.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/cases/cases.hpp"
#include "solver/strength_mesh.hpp"
#include "tests/solver/glass_strip.hpp"

using namespace vrid;

namespace {

NumberId strength_number(const std::string& bench, const std::string& number) {
    NumberId id{NumberId::Kind::strength, bench};
    id.strength_number = number;
    return id;
}

StrengthOptions options_for(const std::string& bench, SharedPrepared prepared) {
    StrengthOptions options;
    options.threads = 1;
    options.degree = 2;
    options.cases = {bench};
    options.prepared = std::move(prepared);
    return options;
}

// The numbers of a board at known places, in known ways: least values jump between the steps of the
// walk that finds them.
std::vector<double> held_numbers(const Board& board, const std::vector<NumberId>& requests,
                                 const StrengthResult& known) {
    const StrengthOptions options = options_for(requests.front().bench_case, known.study.prepared);
    const StudyResult study = run_study(board, strength_study_options(board, options));
    const Layup<double> layup = make_layup<double>(board);
    const JudgedLayup judged = judged_layup(layup);
    WeakestSearch search(layup, judged, study.mesh, Criterion::tsai_hill);
    const PlateModel& model = study.solved[1]->model;
    const auto bench =
        std::find_if(case_table().begin(), case_table().end(),
                     [&](const BenchCase& one) { return one.info.name == options.cases.front(); });
    const HeldParts held = held_parts(model, bench->loading(board, model));
    const StrainField strain = strain_field(model, study.solved[1]->motion[0].col(0));
    const double k = study.cases.front().numbers.front().quantity.value;
    const bool twist = bench->unit == Unit::twist_stiffness;
    std::vector<double> numbers;
    for (const NumberId& request : requests) {
        const Weakness& place = failure_of(known, request)->place;
        const double factor =
            search.at({strain, held, {place.sign}}, place.at, -1, {place.layer, place.mode})
                .value()
                .factor;
        const bool travel = request.strength_number == "travel";
        numbers.push_back(travel ? (twist ? factor : factor / k) : (twist ? factor * k : factor));
    }
    return numbers;
}

} // namespace

TEST_CASE("derivatives of the load and travel at first failure, the place held, are those of "
          "changed boards") {
    const Board board = vrid::tests::glass_strip(0.6);
    for (const char* const bench : {"nose-flex", "nose-twist"}) {
        const StrengthResult result = run_strength(board, options_for(bench, nullptr));
        std::vector<NumberId> requests;
        for (const std::string& number : strength_number_names()) {
            requests.push_back(strength_number(bench, number));
        }
        NumbersOptions options;
        options.degree = 2;
        options.strength_prepared = result.study.prepared;
        const BoardNumbers numbers = board_numbers(board, requests, options);
        const std::vector<double> now = held_numbers(board, requests, result);
        const std::vector<DesignValue> values = design_board(board).values;
        std::vector<double> largest(requests.size(), 0);
        std::vector<double> worst(requests.size(), 0);
        for (std::size_t i = 0; i < values.size(); ++i) {
            const bool first_ones = i < 6; // core and faces; of the others each third
            if (!lines_among({values[i].id}).empty() || (!first_ones && i % 3 != 0)) {
                continue; // with lines the place would have to move
            }
            const double scale = values[i].value != 0 ? std::abs(values[i].value) : 1;
            const double step = 1e-4 * scale;
            const auto with = [&](double to) {
                const SetValues set{{values[i].id}, Eigen::VectorXd::Constant(1, to)};
                return held_numbers(*design_board(board, set).board, requests, result);
            };
            const std::vector<double> above = with(values[i].value + step);
            const std::vector<double> below = with(values[i].value - step);
            for (std::size_t k = 0; k < requests.size(); ++k) {
                const double difference = (above[k] - below[k]) / (2 * step) * scale;
                const double exact = numbers.numbers[k].slope(static_cast<Eigen::Index>(i)) * scale;
                largest[k] = std::max(largest[k], std::abs(difference));
                worst[k] = std::max(worst[k], std::abs(difference - exact));
            }
        }
        for (std::size_t k = 0; k < requests.size(); ++k) {
            CAPTURE(bench, requests[k].strength_number, worst[k] / now[k], largest[k] / now[k]);
            CHECK(numbers.numbers[k].quantity.value == Approx(now[k]).epsilon(1e-9));
            CHECK(largest[k] > 0.1 * now[k]); // something is derived
            CHECK(worst[k] < 1e-4 * largest[k]);
        }
    }
}
