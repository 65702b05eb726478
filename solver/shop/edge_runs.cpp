#include <algorithm>
#include <cmath>
#include <limits>

#include "mesh/board/lists.hpp"
#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/shop/core_blank.hpp"

namespace vrid {

namespace {

// A short chord of the outline.
struct Step {
    Eigen::Vector2d from, to;
    double radius; // of the outline there; infinite where it is straight
    bool corner;   // at its beginning
};

double radius_at(const OutlinePiece& piece, double t) {
    const Eigen::Vector2d d = tangent_at(piece, t);
    const Eigen::Vector2d b = bend_at(piece, t);
    const double cross = std::abs(d.x() * b.y() - d.y() * b.x());
    const double cube = std::pow(d.norm(), 3);
    return cross > 1e-9 * cube ? cube / cross : std::numeric_limits<double>::infinity();
}

std::vector<Step> outline_steps(const Planform& planform) {
    constexpr double sag = 1e-7; // [m]
    std::vector<Step> steps;
    for (const OutlinePiece& piece : planform.outline) {
        const std::vector<double> at = flat_parameters(piece, sag);
        for (std::size_t i = 0; i + 1 < at.size(); ++i) {
            steps.push_back({point_at(piece, at[i]), point_at(piece, at[i + 1]),
                             radius_at(piece, (at[i] + at[i + 1]) / 2),
                             i == 0 && piece.corner_at_start});
        }
    }
    return steps;
}

// What of a step lies between two stations.
bool cut_to(Step& step, const std::optional<Range>& x) {
    if (!x) {
        return true;
    }
    const Eigen::Vector2d along = step.to - step.from;
    double from = 0;
    double to = 1;
    for (const double sign : {1.0, -1.0}) {
        const double limit = sign > 0 ? (*x)[0] : -(*x)[1];
        const double start = sign * step.from.x() - limit;
        const double slope = sign * along.x();
        if (slope == 0) {
            to = start < 0 ? -1 : to;
        } else if (slope > 0) {
            from = std::max(from, -start / slope);
        } else {
            to = std::min(to, -start / slope);
        }
    }
    if (to <= from) {
        return false;
    }
    const Eigen::Vector2d begin = step.from;
    step.corner = step.corner && from == 0;
    step.from = begin + from * along;
    step.to = begin + to * along;
    return true;
}

double angle_between(const Step& a, const Step& b) {
    const Eigen::Vector2d u = a.to - a.from;
    const Eigen::Vector2d v = b.to - b.from;
    return std::abs(std::atan2(u.x() * v.y() - u.y() * v.x(), u.dot(v)));
}

EdgeRun measured(const std::vector<Step>& steps) {
    EdgeRun run;
    run.from_x = steps.front().from.x();
    run.to_x = steps.back().to.x();
    run.tightest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const Step& step = steps[i];
        run.length += (step.to - step.from).norm();
        run.turn += i > 0 ? angle_between(steps[i - 1], step) : 0.0;
        run.corners += step.corner && i > 0 ? 1 : 0;
        if (step.radius < run.tightest) {
            run.tightest = step.radius;
            run.tightest_x = step.from.x();
        }
    }
    if ((steps.front().from - steps.back().to).norm() < same_place) {
        run.turn += angle_between(steps.back(), steps.front());
        run.corners += steps.front().corner ? 1 : 0;
    }
    return run;
}

} // namespace

std::vector<EdgeRun> edge_runs(const Board& board) {
    if (!board.edge) {
        return {};
    }
    std::vector<std::vector<Step>> runs;
    for (Step& step : outline_steps(board.planform)) {
        if (!cut_to(step, board.edge->x)) {
            continue;
        }
        if (runs.empty() || (runs.back().back().to - step.from).norm() > same_place) {
            runs.emplace_back();
        }
        runs.back().push_back(step);
    }
    // the outline begins somewhere within a run
    if (runs.size() > 1 &&
        (runs.back().back().to - runs.front().front().from).norm() < same_place) {
        runs.back().insert(runs.back().end(), runs.front().begin(), runs.front().end());
        runs.erase(runs.begin());
    }
    return each_of(runs, [](const std::vector<Step>& run) { return measured(run); });
}

} // namespace vrid
