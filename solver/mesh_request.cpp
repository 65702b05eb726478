#include "solver/mesh_request.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/cases/foot_strip.hpp"
#include "solver/response/station.hpp"

namespace vrid {

namespace {

// The sixth bending mode of a free strip has 3.25 waves. With fewer than three quads to a wave,
// degree p can add as good as nothing to a shape that the quads cut symmetrically, and the change
// from p - 1, of which the bar is made, says nothing of the error: on a strip of 300 mm cut into
// four, with a core of 1 MPa, mode 5 changed by 0.1 % from degree 2 to 3 and by 0.7 % from 3 to 4.
constexpr double quads_along = 10;

void sort_unique(std::vector<double>& values) {
    std::ranges::sort(values);
    values.erase(std::unique(values.begin(), values.end(),
                             [](double a, double b) { return b - a < same_place; }),
                 values.end());
}

// The feet as a case that no bench has.
BenchCase standing() {
    BenchCase feet;
    feet.needs_feet = true;
    feet.stations = [](const Board& board) {
        std::vector<double> lines = foot_lines(board);
        lines.push_back(board.stance->rear()); // shares are split there
        lines.push_back(board.stance->front());
        return lines;
    };
    return feet;
}

} // namespace

std::vector<double> case_stations(const Board& board, const std::vector<const BenchCase*>& cases) {
    std::vector<double> stations{tail_contact(board), nose_contact(board)};
    for (const BenchCase* bench : cases) {
        const std::vector<double> more = bench->stations(board);
        stations.insert(stations.end(), more.begin(), more.end());
    }
    sort_unique(stations);
    return stations;
}

double edge_layer(const Layup<double>& layup) {
    const Board& board = *layup.board;
    std::vector<double> x = board.core ? board.core->thickness.x : std::vector<double>{};
    x.push_back(0);
    double widest = 0;
    for (const double station : x) {
        if (const auto y = y_extent(board.planform, station)) {
            const Eigen::Vector2d middle(station, ((*y)[0] + (*y)[1]) / 2);
            const Section<double> s = section(
                stack_laminae(layup, stack_key(layup, middle), core_thickness(layup, middle)));
            const double D66 = s.D(2, 2) - s.B(2, 2) * s.B(2, 2) / s.A(2, 2);
            widest = std::max(widest, std::sqrt(D66 / s.S(1, 1)));
        }
    }
    return 3 * widest;
}

std::shared_ptr<const RestShape> shape_of(const Board& board, const Settings& settings) {
    return settings.flat ? nullptr : rest_shape(board);
}

namespace {

// Stations of the rest shape among others; one that stands closer than this to a line would add
// slivers and little else.
void add_rest_stations(const RestShape& rest, std::vector<double>& stations) {
    constexpr double close = 1e-3;
    const std::vector<double> lines = stations;
    for (const double x : rest.height.x) {
        if (std::ranges::none_of(lines, [&](double line) { return std::abs(line - x) < close; })) {
            stations.push_back(x);
        }
    }
    sort_unique(stations);
}

} // namespace

MeshOptions mesh_request(const Layup<double>& layup, const std::vector<const BenchCase*>& cases,
                         double max_size, const RestShape* rest) {
    const Board& board = *layup.board;
    MeshOptions options;
    options.max_size = max_size;
    if (std::ranges::any_of(cases, [](const BenchCase* b) { return b->modes > 0; })) {
        const std::array<double, 2> x = x_extent(board.planform);
        options.max_size = std::min(max_size, (x[1] - x[0]) / quads_along);
    }
    options.stations = case_stations(board, cases);
    const double layer = edge_layer(layup);
    const bool clamps =
        std::ranges::any_of(cases, [](const BenchCase* bench) { return bench->needs_feet; });
    if (clamps) {
        const std::vector<double> lines = foot_lines(board);
        const std::vector<double> beside{lines[0] - layer, lines[1] + layer, lines[2] - layer,
                                         lines[3] + layer};
        options.stations.insert(options.stations.end(), beside.begin(), beside.end());
        sort_unique(options.stations);
    }
    if (rest != nullptr) {
        add_rest_stations(*rest, options.stations);
    }
    const std::vector<double> bands = band_distances(board);
    const bool resolved = std::ranges::any_of(
        bands, [&](double band) { return band > layer / 4 && band < 2 * layer; });
    if (!resolved) {
        options.outline_bands = {layer};
    }
    return options;
}

std::vector<double> edge_stations(const Board& board) {
    const BenchCase feet = standing();
    return case_stations(board, {&feet});
}

MeshOptions edge_mesh_request(const Layup<double>& layup, double size, const RestShape* rest) {
    const BenchCase feet = standing();
    return mesh_request(layup, {&feet}, size, rest);
}

std::vector<int> foot_patch(const Board& board, const PlateModel& model, double foot) {
    std::vector<int> all;
    for (const std::vector<int>& nodes : model.numbering.quad_nodes) {
        Eigen::Vector2d mean = Eigen::Vector2d::Zero();
        for (const int node : nodes) {
            mean += model.numbering.position.col(node) / static_cast<double>(nodes.size());
        }
        if (std::abs(mean.x() - foot) < board.stance->foot_length / 2 &&
            std::abs(mean.y()) < board.stance->foot_width / 2) {
            all.insert(all.end(), nodes.begin(), nodes.end());
        }
    }
    sort_distinct(all);
    if (all.empty()) {
        throw InputError(board.file, "[stance]: the foot at x = " + std::to_string(foot) +
                                         " m does not stand on the board");
    }
    return all;
}

VectorXd rest_heights(const Board& board, const EdgePoints& points) {
    VectorXd rest = VectorXd::Zero(points.X.cols());
    if (board.rest_shape) {
        const RestShape shape{*board.rest_shape, smooth_slopes(*board.rest_shape)};
        for (Index i = 0; i < rest.size(); ++i) {
            rest(i) = shape.z(points.X(0, i));
        }
    }
    return rest;
}

} // namespace vrid
