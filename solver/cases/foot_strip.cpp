#include "solver/cases/foot_strip.hpp"

namespace vrid {

std::vector<double> foot_lines(const Board& board) {
    const double half = board.stance->foot_length / 2;
    const double rear = board.stance->rear();
    const double front = board.stance->front();
    return {rear - half, rear + half, front - half, front + half};
}

std::vector<int> foot_strip(const Board& board, const PlateModel& model, double foot) {
    const double half = board.stance->foot_length / 2;
    return strip_nodes(model, foot - half, foot + half);
}

void clamp_foot(Loading& loading, const Board& board, const PlateModel& model, double foot) {
    const std::vector<int> nodes = foot_strip(board, model, foot);
    for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
        prescribe(loading, nodes, c);
    }
}

} // namespace vrid
