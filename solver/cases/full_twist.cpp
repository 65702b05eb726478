#include "solver/cases/cases.hpp"

namespace vrid {

BenchCase full_twist() {
    BenchCase bench;
    bench.info = {"full-twist", "rigid bar, w = 0, on the tail contact line",
                  "rigid bar turned about the long axis on the nose contact line",
                  "torque over turn"};
    bench.unit = Unit::twist_stiffness;
    bench.stations = [](const Board& board) { // at 0 the board is pushed down to bend it
        return std::vector<double>{tail_contact(board), 0.0, nose_contact(board)};
    };
    bench.loading = [](const Board& board, const PlateModel& model) {
        Loading loading = free_loading(model);
        prescribe(loading, line_nodes(model, tail_contact(board)), comp_w);
        prescribe_turn(loading, model, line_nodes(model, nose_contact(board)), 1);
        hold_in_plane(loading, model, tail_contact(board), nose_contact(board));
        return loading;
    };
    return bench;
}

} // namespace vrid
