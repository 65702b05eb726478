#include "solver/cooling/shape_curves.hpp"

#include <algorithm>
#include <cmath>

#include "solver/cases/cases.hpp"
#include "solver/cooling/shape_numbers.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

// Every 10 mm from tip to tip.
std::vector<double> axis_stations(const Board& board) {
    constexpr double step = 0.01;
    const auto [tail, nose] = x_extent(board.planform);
    std::vector<double> x{tail};
    for (double at = std::ceil(tail / step + 1e-6); at * step < nose - 1e-6; ++at) {
        x.push_back(at * step);
    }
    x.push_back(nose);
    return x;
}

// A plane in the floor's place and y [m].
struct Plane {
    double at_origin = 0, along = 0, across = 0;
};

void take_out(const Plane& plane, const PlateModel& model, Eigen::Ref<VectorXd> u) {
    const RestShape* rest = model.rest.get();
    const auto& position = model.numbering.position;
    for (Index node = 0; node < position.cols(); ++node) {
        const double x = position(0, node);
        const double y = position(1, node);
        const Index first = unknowns_per_node * node;
        const double place = rest != nullptr ? rest->place(x) : x;
        u(first + comp_w) -= plane.at_origin + plane.along * place + plane.across * y;
        u(first + comp_bx) += plane.along;
        u(first + comp_by) += plane.across * cosine_at(model, static_cast<int>(node));
        if (rest != nullptr) {
            u(first + comp_u) += plane.along * rest->z(x);
            u(first + comp_v) += plane.across * rest->z(x);
        }
    }
}

} // namespace

void stand_on_contacts(const Board& board, const MeshPlaces& places, MatrixXd& motions) {
    const PlateModel& model = places.model();
    const RestShape* rest = model.rest.get();
    const double tail = tail_contact(board);
    const double nose = nose_contact(board);
    const auto [right, left] =
        y_extent(board.planform, tail).value_or(std::array<double, 2>{-1e-3, 1e-3});
    // Three points tell the plane between what moved and what is to be told.
    const std::array<Eigen::Vector2d, 3> points{
        Eigen::Vector2d(nose, right), Eigen::Vector2d(tail, right), Eigen::Vector2d(tail, left)};
    std::vector<ShapeNumber> rises;
    for (const Eigen::Vector2d& point : points) {
        rises.push_back(free_rise(board, rest, point));
    }
    const MatrixXd told = shape_loads(places, rises).transpose() * motions; // 3 x columns
    const auto place = [&](double x) { return rest != nullptr ? rest->place(x) : x; };
    for (Index c = 0; c < motions.cols(); ++c) {
        const auto off = [&](std::size_t i) {
            return rise_at(model, places.at(points[i]), motions.col(c)) -
                   told(static_cast<Index>(i), c);
        };
        Plane plane;
        plane.along = (off(0) - off(1)) / (place(nose) - place(tail));
        plane.across = (off(2) - off(1)) / (left - right);
        plane.at_origin = off(1) - plane.along * place(tail) - plane.across * right;
        take_out(plane, model, motions.col(c));
    }
}

void add_curves(const Board& board, const MeshPlaces& places, const MatrixXd& motions,
                std::vector<CooledShape>& shapes) {
    // each place is found once for all motions
    const auto add = [&](double x, double y, double at, const auto& curve) {
        const MeshPlace place = places.at({x, y});
        for (std::size_t c = 0; c < shapes.size(); ++c) {
            const double rise = rise_at(places.model(), place, motions.col(static_cast<Index>(c)));
            curve(shapes[c]).push_back({at, rise});
        }
    };
    for (const double x : axis_stations(board)) {
        const auto y = y_extent(board.planform, x);
        add(x, y ? std::clamp(0.0, (*y)[0], (*y)[1]) : 0, x,
            [](CooledShape& shape) -> std::vector<ShapePoint>& { return shape.axis; });
    }
    constexpr int steps = 20;
    for (const double x : {tail_contact(board), 0.0, nose_contact(board)}) {
        for (CooledShape& shape : shapes) {
            shape.across.push_back({x, {}});
        }
        const auto y = y_extent(board.planform, x);
        for (int i = 0; y && i <= steps; ++i) {
            const double at = (*y)[0] + ((*y)[1] - (*y)[0]) * i / steps;
            add(x, at, at, [](CooledShape& shape) -> std::vector<ShapePoint>& {
                return shape.across.back().points;
            });
        }
    }
}

} // namespace vrid
