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

namespace {

// Height of a line along the board at station x above the line through the contact stations.
double above_contacts(const Board& board, const Profile& line, double x) {
    const std::vector<double> slopes = smooth_slopes(line);
    const auto z = [&](double at) { return value_at(line, slopes, at); };
    const double tail = tail_contact(board);
    const double nose = nose_contact(board);
    const double share = (x - tail) / (nose - tail);
    return z(x) - (1 - share) * z(tail) - share * z(nose);
}

} // namespace

double wanted_camber(const Board& board) {
    return board.rest_shape ? above_contacts(board, *board.rest_shape, 0) : 0;
}

double mould_rise(const Board& board, const std::string& name) {
    const std::array<double, 2> tips = x_extent(board.planform);
    const double x = name == "nose_height" ? tips[1] : name == "tail_height" ? tips[0] : 0;
    return above_contacts(board, *board.cure->mould, x);
}

} // namespace vrid
