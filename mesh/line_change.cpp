#include "mesh/mesh_motion.hpp"

#include <cmath>

#include "mesh/board/cross.hpp"
#include "mesh/board/outline_piece.hpp"

namespace vrid {

namespace {

// The line that a straight line has become: of the same rank and direction, the nearest.
const StraightLine* again(const std::vector<StraightLine>& lines, const StraightLine& line) {
    constexpr double same_direction = 1e-3;
    constexpr double farthest = 1e-3; // a change is small [m]
    const Vector2d direction = (line.b - line.a).normalized();
    const Vector2d middle = (line.a + line.b) / 2;
    const StraightLine* best = nullptr;
    double least = farthest;
    for (const StraightLine& other : lines) {
        const Vector2d along = (other.b - other.a).normalized();
        const double away = std::abs(cross(along, middle - other.a));
        const double ends = std::min((other.a - line.a).norm() + (other.b - line.b).norm(),
                                     (other.a - line.b).norm() + (other.b - line.a).norm());
        const double worth = away + 1e-3 * ends; // of two in one row the one of the same ends
        if (other.rank == line.rank && std::abs(cross(along, direction)) < same_direction &&
            away < farthest && worth < least) {
            least = worth;
            best = &other;
        }
    }
    return best;
}

double distance_again(const std::vector<ParallelLine>& lines, const ParallelLine& line) {
    double best = line.distance;
    double least = 1e-3;
    for (const ParallelLine& other : lines) {
        if (other.rank == line.rank && std::abs(other.distance - line.distance) < least) {
            least = std::abs(other.distance - line.distance);
            best = other.distance;
        }
    }
    return best;
}

} // namespace

double ahead(const StraightLine& line, const Vector2d& at, const Vector2d& normal) {
    const Vector2d along = (line.b - line.a).normalized();
    const Vector2d left(-along.y(), along.x());
    return (left.dot(normal) < 0 ? -left : left).dot(line.a - at);
}

LineSpeeds::LineSpeeds(const LineChange& change, const MeshLines& lines) : change_(change) {
    for (const StraightLine& line : lines.straight) {
        below_.push_back(again(change.lines_below.straight, line));
        above_.push_back(again(change.lines_above.straight, line));
    }
    for (const ParallelLine& line : lines.parallels) {
        parallel_.push_back((distance_again(change.lines_above.parallels, line) -
                             distance_again(change.lines_below.parallels, line)) /
                            change.width);
    }
}

double LineSpeeds::straight(std::size_t line, const Vector2d& at, const Vector2d& normal) const {
    const StraightLine* low = below_[line];
    const StraightLine* high = above_[line];
    return low == nullptr || high == nullptr
               ? 0
               : (ahead(*high, at, normal) - ahead(*low, at, normal)) / change_.width;
}

Vector2d LineSpeeds::outline(const OutlinePlace& place) const {
    return (point_at(change_.above.planform, place) - point_at(change_.below.planform, place)) /
           change_.width;
}

} // namespace vrid
