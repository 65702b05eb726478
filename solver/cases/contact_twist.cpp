#include "solver/cases/cases.hpp"
#include "solver/cases/foot_strip.hpp"

namespace vrid {

namespace {

// Foot clamped, rigid bar turned on the contact line of the same end.
BenchCase contact_twist(const std::string& end, double (*foot)(const Stance&),
                        double (*contact)(const Board&)) {
    BenchCase bench;
    bench.info = {end + "-twist", "every freedom on the foot strip of that end",
                  "rigid bar turned about the long axis on the " + end + " contact line",
                  "torque over turn"};
    bench.unit = Unit::twist_stiffness;
    bench.needs_feet = true;
    bench.stations = [contact](const Board& board) {
        std::vector<double> x = foot_lines(board);
        x.push_back(contact(board));
        return x;
    };
    bench.loading = [foot, contact](const Board& board, const PlateModel& model) {
        Loading loading = free_loading(model);
        clamp_foot(loading, board, model, foot(*board.stance));
        prescribe_turn(loading, model, line_nodes(model, contact(board)), 1);
        return loading;
    };
    return bench;
}

} // namespace

BenchCase nose_twist() {
    return contact_twist("nose", [](const Stance& s) { return s.front(); }, nose_contact);
}

BenchCase tail_twist() {
    return contact_twist("tail", [](const Stance& s) { return s.rear(); }, tail_contact);
}

} // namespace vrid
