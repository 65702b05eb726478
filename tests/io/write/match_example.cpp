#include "tests/io/write/match_example.hpp"
#include "tests/degree.hpp"

namespace vrid::tests {
namespace {

const DesignKind core_station{DesignProperty::core_thickness, nullptr, DesignForm::station};
const DesignKind angle{DesignProperty::layer_angle};
const DesignKind fraction{DesignProperty::fibre_fraction};

MatchValue value_of(const DesignId& id, double start, double min, double max) {
    MatchValue value;
    value.id = id;
    value.start = start;
    value.min = min;
    value.max = max;
    return value;
}

} // namespace

MatchExample::MatchExample() {
    board.name = "plank";
    board.hash = "0123abcd";
    goal.file = "goal.toml";
    problem.values = {value_of({&core_station, "", 3}, 7.1e-3, 5e-3, 9.5e-3),
                      value_of({&angle, "ribbon", 0}, 5 * degree, -30 * degree, 30 * degree),
                      value_of({&fraction, "triax", 0}, 0.48, 0.4, 0.55)};
    problem.values[0].station = -0.5675;
    problem.slopes = {{0, {}, -0.5675, -0.2925, 7e-3, 0.02}};
    result.met = true;
    result.values = Eigen::Vector3d(6.95e-3, -2.5 * degree, 0.48);
    result.solves = 7;
    add_target({NumberId::Kind::bench_case, "nose-twist"}, {180, 1.8, Unit::twist_stiffness},
               {198, 1.8, Unit::twist_stiffness});
}

MatchReport MatchExample::report() const {
    return {board, goal, problem, result, {}, "", 2.345, {}};
}

MatchedTarget& MatchExample::add_target(const NumberId& number, const Quantity& before,
                                        const Quantity& after) {
    Target target;
    target.number = number;
    target.place = "goal.toml:" + std::to_string(3 + goal.targets.size()) + ":1";
    goal.targets.push_back(target);
    result.targets.push_back({{0, after.value, after.value}, before, after, true, true, 0});
    return result.targets.back();
}

} // namespace vrid::tests
