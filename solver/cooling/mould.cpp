#include "solver/cooling/mould.hpp"

#include <optional>

#include "mesh/board/surface.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

std::vector<MouldPoint> mould_line(const Board& board, const CooledShape& shape) {
    std::optional<RestShape> rest;
    if (board.rest_shape) {
        rest = surface_of(*board.rest_shape);
    }
    std::vector<MouldPoint> line;
    for (const ShapePoint& point : shape.axis) {
        const double wanted = rest ? rest->z(point.at) : 0;
        line.push_back({point.at, wanted, point.rise, wanted - point.rise});
    }
    return line;
}

namespace {

// Height of a line along the board at station x above the line through the contact stations.
double above_contacts(const Board& board, const Profile& line, double x) {
    const RestShape surface = surface_of(line);
    const double tail = tail_contact(board);
    const double nose = nose_contact(board);
    const double share = (x - tail) / (nose - tail);
    return surface.z(x) - (1 - share) * surface.z(tail) - share * surface.z(nose);
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
