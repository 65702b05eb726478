#include "solver/cases/cases.hpp"

namespace vrid {

BenchCase centre_flex() {
    BenchCase bench;
    bench.info = {"centre-flex", "w = 0 on both contact lines", "even force on the line at x = 0",
                  "force over width-mean deflection of that line"};
    bench.unit = Unit::bending_stiffness;
    bench.stations = [](const Board& board) {
        return std::vector<double>{tail_contact(board), 0.0, nose_contact(board)};
    };
    bench.loading = [](const Board& board, const PlateModel& model) {
        Loading loading = free_loading(model);
        for (const double x : {tail_contact(board), nose_contact(board)}) {
            prescribe(loading, line_nodes(model, x), comp_w);
        }
        hold_in_plane(loading, model, tail_contact(board), nose_contact(board));
        add_line_force(loading, model, 0, 1);
        return loading;
    };
    return bench;
}

} // namespace vrid
