#include "tests/io/write/strength_example.hpp"

#include <numbers>

namespace vrid::tests {
namespace {

Weakness weakness() {
    Weakness weak;
    weak.ply = 2;
    weak.angle = std::numbers::pi / 4;
    weak.mode = FailureMode::crack_across;
    weak.z = 2.5e-3;
    weak.at = {0.318, -0.040};
    weak.diameter = 0.010;
    weak.aside = 0.030;
    return weak;
}

} // namespace

FailurePlace failure_place() {
    FailurePlace place;
    place.load = {1250, 30, Unit::force};
    place.travel = {0.0457, 0.0011, Unit::length};
    place.place = weakness();
    place.layer = "lower glass";
    return place;
}

IndexPlace index_place() {
    return {{0.8165, 0.0123, Unit::none}, weakness(), "lower glass"};
}

BoardStrength strength_example() {
    BoardStrength strength;
    strength.board.name = "plank";
    strength.board.hash = "0123abcd";
    strength.board.planform = rectangle_planform(1.2, 0.3);
    CaseStrength flex;
    flex.name = "nose-flex";
    flex.first = failure_place();
    flex.slope = 0.1234;
    strength.result.cases = {flex};
    return strength;
}

EdgeStrength edge_strength_example() {
    EdgeStrength one;
    one.condition = {Side::left, std::numbers::pi / 3, 800, 5e9};
    one.places.first = index_place();
    one.places.slope = 0.0456;
    return one;
}

} // namespace vrid::tests
