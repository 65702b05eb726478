#include "solver/cooling/mould.hpp"

#include "solver/cases/cases.hpp"

namespace vrid {

std::vector<MouldPoint> mould_line(const Board& board, const CooledShape& shape) {
    std::vector<double> slopes;
    if (board.rest_shape) {
        slopes = smooth_slopes(board.rest_shape->x, board.rest_shape->value);
    }
    std::vector<MouldPoint> line;
    for (const ShapePoint& point : shape.axis) {
        const double wanted = board.rest_shape ? value_at(*board.rest_shape, slopes, point.at) : 0;
        line.push_back({point.at, wanted, point.rise, wanted - point.rise});
    }
    return line;
}

double wanted_camber(const Board& board) {
    if (!board.rest_shape) {
        return 0;
    }
    const std::vector<double> slopes = smooth_slopes(board.rest_shape->x, board.rest_shape->value);
    const auto z = [&](double x) { return value_at(*board.rest_shape, slopes, x); };
    return z(0) - (z(tail_contact(board)) + z(nose_contact(board))) / 2;
}

} // namespace vrid
