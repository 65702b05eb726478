#include "solver/cases/cases.hpp"
#include "solver/cases/foot_strip.hpp"

namespace vrid {

namespace {

// Foot clamped, contact line of the same end loaded.
BenchCase contact_flex(End end) {
    BenchCase bench = clamped_foot_case(
        end, "-flex", [](Loading& loading, const PlateModel& model, double contact) {
            add_line_force(loading, model, contact, 1);
        });
    bench.unit = Unit::bending_stiffness;
    bench.info.loaded = "even force on the contact line of that end";
    bench.info.reported = "force over width-mean deflection of that line";
    return bench;
}

} // namespace

BenchCase nose_flex() {
    return contact_flex(End::nose);
}
BenchCase tail_flex() {
    return contact_flex(End::tail);
}

} // namespace vrid
