#include "benchmarks/measure/bend_cost.hpp"

#include <numbers>

#include "benchmarks/measure/runs.hpp"
#include "benchmarks/plate.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/edge.hpp"
#include "solver/study.hpp"

namespace vrid::measure {

std::vector<double> BendCost::over_plain(const std::vector<double>& seconds) const {
    return ratios_of(seconds, plain);
}

std::vector<double> BendCost::slopes_over_plain() const {
    std::vector<double> all;
    for (std::size_t i = 0; i < slopes.size(); ++i) {
        all.push_back((slopes[i] - bent[i]) / plain[i]);
    }
    return all;
}

BendCost bend_cost(const Board& board, int rounds) {
    constexpr double travel = 0.06;
    const std::vector<std::string> cases{"centre-flex", "stance-twist", "full-twist"};
    StudyOptions plain;
    plain.threads = 1;
    plain.cases = possible_cases(board);
    std::erase(plain.cases, "free-modes");
    StudyOptions bent;
    bent.threads = 1;
    bent.cases = cases;
    bent.bend = {travel};
    std::vector<NumberId> requests;
    for (const std::string& name : cases) {
        requests.push_back({NumberId::Kind::bent, name, 0, 0, {}, {}, "stiffness", travel});
    }
    NumbersOptions numbers;
    numbers.threads = 1;
    EdgeCondition condition;
    condition.tilt = std::numbers::pi / 4;
    condition.force = 800;    // [N]
    condition.hardness = 5e9; // [N/m3]
    condition.bent = true;
    EdgeOptions edge;
    edge.threads = 1;
    run_study(board, plain); // the first finds cold caches
    BendCost cost;
    for (int round = 0; round < rounds; ++round) {
        cost.plain.push_back(seconds_of(cpu_seconds, [&] { run_study(board, plain); }));
        cost.bent.push_back(seconds_of(cpu_seconds, [&] { run_study(board, bent); }));
        cost.slopes.push_back(
            seconds_of(cpu_seconds, [&] { board_numbers(board, requests, numbers); }));
        cost.edge.push_back(seconds_of(cpu_seconds, [&] { run_edge(board, {condition}, edge); }));
    }
    return cost;
}

} // namespace vrid::measure
