#include "solver/cases/cases.hpp"
#include "solver/cases/foot_strip.hpp"

namespace vrid {

namespace {

// Foot clamped, rigid bar turned on the contact line of the same end.
BenchCase contact_twist(End end) {
    BenchCase bench = clamped_foot_case(
        end, "-twist", [](Loading& loading, const PlateModel& model, double contact) {
            prescribe_turn(loading, model, line_nodes(model, contact), 1);
        });
    bench.unit = Unit::twist_stiffness;
    bench.info.loaded = "rigid bar on the contact line of that end, turned about the long axis";
    bench.info.reported = "torque over turn";
    return bench;
}

} // namespace

BenchCase nose_twist() {
    return contact_twist(End::nose);
}
BenchCase tail_twist() {
    return contact_twist(End::tail);
}

} // namespace vrid
