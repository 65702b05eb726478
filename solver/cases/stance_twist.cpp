#include "solver/cases/cases.hpp"
#include "solver/cases/foot_strip.hpp"

namespace vrid {

BenchCase stance_twist() {
    BenchCase bench;
    bench.info = {"stance-twist", "every freedom on the rear foot strip",
                  "front foot strip turned about the long axis", "torque over turn"};
    bench.unit = Unit::twist_stiffness;
    bench.needs_feet = true;
    bench.stations = [](const Board& board) { // at 0 the board is pushed down to bend it
        std::vector<double> lines = foot_lines(board);
        lines.push_back(0.0);
        return lines;
    };
    bench.loading = [](const Board& board, const PlateModel& model) {
        Loading loading = free_loading(model);
        clamp_foot(loading, board, model, board.stance->rear());
        // The foot turns as one: w = y, and the normals with it; it does not hold u and v.
        const std::vector<int> front = foot_strip(board, model, board.stance->front());
        prescribe_turn(loading, model, front, 1);
        prescribe(loading, front, comp_bx, 0);
        for (const int node : front) {
            prescribe(loading, {node}, comp_by, -cosine_at(model, node));
        }
        return loading;
    };
    return bench;
}

} // namespace vrid
