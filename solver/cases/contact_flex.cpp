#include "solver/cases/cases.hpp"
#include "solver/cases/foot_strip.hpp"

namespace vrid {

namespace {

// Foot clamped, contact line of the same end loaded.
BenchCase contact_flex(const std::string& end, double (*foot)(const Stance&),
                       double (*contact)(const Board&)) {
    BenchCase bench;
    bench.info = {end + "-flex", "every freedom on the foot strip of that end",
                  "even force on the " + end + " contact line",
                  "force over width-mean deflection of that line"};
    bench.unit = Unit::bending_stiffness;
    bench.needs_feet = true;
    bench.stations = [contact](const Board& board) {
        std::vector<double> x = foot_lines(board);
        x.push_back(contact(board));
        return x;
    };
    bench.loading = [foot, contact](const Board& board, const PlateModel& model) {
        Loading loading = free_loading(model);
        clamp_foot(loading, board, model, foot(*board.stance));
        add_line_force(loading, model, contact(board), 1);
        return loading;
    };
    return bench;
}

} // namespace

BenchCase nose_flex() {
    return contact_flex("nose", [](const Stance& s) { return s.front(); }, nose_contact);
}

BenchCase tail_flex() {
    return contact_flex("tail", [](const Stance& s) { return s.rear(); }, tail_contact);
}

} // namespace vrid
