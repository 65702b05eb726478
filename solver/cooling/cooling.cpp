#include "solver/cooling/cooling.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>

#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cooling/free_board.hpp"
#include "solver/cooling/mesh_place.hpp"
#include "solver/cooling/part_works.hpp"
#include "solver/cooling/shape_numbers.hpp"
#include "solver/cooling/stretch.hpp"
#include "solver/response/cooled_shape.hpp"
#include "solver/system/loading.hpp"
#include "solver/system/stopwatch.hpp"

namespace vrid {
namespace {

Index find(const std::vector<ShapeNumber>& numbers, const std::string& name,
           std::optional<double> station = {}) {
    return std::ranges::find_if(
               numbers,
               [&](const ShapeNumber& n) { return n.name == name && n.station == station; }) -
           numbers.begin();
}

// The numbers that are told by layer: camber, concavity at x = 0, twist.
std::vector<Index> told_by_layer(const std::vector<ShapeNumber>& numbers) {
    return {find(numbers, "camber"), find(numbers, "concavity", 0.0), find(numbers, "twist")};
}

// What each part does at a temperature, against the common shrink; the last row is what that does:
// nothing on a flat board.
std::vector<ShapePart> by_layer(const PartWorks& works, double celsius) {
    const double common = works.common(celsius);
    const MatrixXd own = works.at_zero + celsius * works.per_kelvin - common * works.of_common;
    std::vector<ShapePart> parts;
    for (std::size_t p = 0; p < works.names.size(); ++p) {
        const auto row = static_cast<Index>(p);
        parts.push_back({works.names[p], own(row, 0), own(row, 1), own(row, 2)});
    }
    const Eigen::RowVectorXd rest = common * works.of_common.colwise().sum();
    const double bent = std::max(std::abs(rest(0)), std::abs(rest(1)));
    if (bent > 1e-7) { // [m] of a curved board
        parts.push_back({"common shrink", rest(0), rest(1), rest(2)});
    }
    return parts;
}

// Of a rest shape it is what the elements strain in a rigid motion (off_supports).
void check_reaction(double reaction, bool rest) {
    const double most = rest ? 1e-3 : 1e-7;
    if (!(reaction < most)) {
        std::ostringstream text;
        text << "a support of the free board takes " << reaction << " of the largest nodal load";
        throw SolveError("cooling", text.str());
    }
}

// The board that cools: its own model where plastics creep.
struct CoolingBoard {
    std::unique_ptr<PlateModel> slow; // with what creeping plastics show after hours
    std::unique_ptr<Layup<double>> layup;
    std::unique_ptr<SectionCache> slow_sections;
    SectionCache* sections = nullptr;
    const PlateModel* model = nullptr;
    FreeForces forces;
};

CoolingBoard cooling_board(const CoolingTask& task) {
    CoolingBoard board;
    const bool creeping = creeps(task.board);
    board.layup = std::make_unique<Layup<double>>(
        make_layup<double>(task.board, {}, creeping ? Pace::slow : Pace::quick));
    if (creeping) {
        board.slow = std::make_unique<PlateModel>(task.model);
        board.slow_sections = std::make_unique<SectionCache>(*board.layup);
        board.sections = board.slow_sections.get();
        board.forces = free_forces(*board.slow, *board.sections, &board.slow->stiffness);
        board.model = board.slow.get();
    } else {
        board.sections = &task.sections;
        board.model = &task.model;
        board.forces = free_forces(task.model, *board.sections);
    }
    return board;
}

// Everything about the shapes that cooling.motion is of.
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

/// Takes the rigid motion out of motions, a column each: then the axis rises by nothing at the
/// contact stations, and the chords there have no slope in the mean.
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
    const std::vector<ShapeNumber> rises = each_of(
        points, [&](const Eigen::Vector2d& point) { return free_rise(board, rest, point); });
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

/// How far the board rises along its axis and across it at the contact stations and x = 0, of
/// motions that stand on the contacts: CooledShape::axis and across, for each column.
/// \param shapes as many as columns
void add_curves(const Board& board, const MeshPlaces& places, const MatrixXd& motions,
                std::vector<CooledShape>& shapes) {
    // each place is found once for all motions
    const auto add = [&](const std::vector<ShapeNumber::Term>& terms, double at,
                         const auto& curve) {
        VectorXd rise = VectorXd::Zero(static_cast<Index>(shapes.size()));
        for (const ShapeNumber::Term& term : terms) {
            const MeshPlace place = places.at(term.point);
            for (Index c = 0; c < rise.size(); ++c) {
                rise(c) += term.factor * rise_at(places.model(), place, motions.col(c));
            }
        }
        for (std::size_t c = 0; c < shapes.size(); ++c) {
            curve(shapes[c]).push_back({at, rise(static_cast<Index>(c))});
        }
    };
    for (const double x : axis_stations(board)) {
        add(axis(board, x), x,
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
            add({{{x, at}, 1}}, at, [](CooledShape& shape) -> std::vector<ShapePoint>& {
                return shape.across.back().points;
            });
        }
    }
}

void add_shapes(const CoolingTask& task, const CoolingBoard& board, const MeshPlaces& places,
                const PartWorks& works, const Eigen::VectorXd& reaction, Cooling& cooling) {
    stand_on_contacts(task.board, places, cooling.motion);
    const std::vector<StretchShare> stretch =
        stretch_shares(task.board, *board.sections, places, cooling.motion);
    for (std::size_t c = 0; c < task.celsius.size(); ++c) {
        CooledShape shape;
        shape.celsius = task.celsius[c];
        shape.largest_reaction = reaction(static_cast<Index>(c));
        check_reaction(shape.largest_reaction, board.model->rest != nullptr);
        shape.by_layer = by_layer(works, shape.celsius);
        shape.stretch = stretch[c];
        cooling.shapes.push_back(std::move(shape));
    }
    add_curves(task.board, places, cooling.motion, cooling.shapes);
}

// Loads of the temperatures, then of the numbers told by layer, then of all others asked for.
MatrixXd all_loads(const CoolingTask& task, const CoolingBoard& board, const MatrixXd& units,
                   const std::vector<Index>& asked) {
    const std::vector<Resultants> held =
        each_of(task.celsius, [&](const double celsius) { return board.forces.at(celsius); });
    const MatrixXd forces = nodal_forces(*board.model, held, task.means.threads);
    MatrixXd loads(forces.rows(), forces.cols() + static_cast<Index>(asked.size()));
    loads << forces, units(Eigen::all, asked);
    return loads;
}

// Numbers whose adjoint motion is wanted: first those told by layer.
std::vector<Index> asked_numbers(const CoolingTask& task, const std::vector<ShapeNumber>& numbers) {
    std::vector<Index> asked;
    if (task.shapes || task.adjoints) {
        asked = told_by_layer(numbers);
    }
    for (Index k = 0; task.adjoints && k < static_cast<Index>(numbers.size()); ++k) {
        add_once(asked, k);
    }
    return asked;
}

} // namespace

Cooling cool(const CoolingTask& task, Seconds& seconds) {
    CoolingBoard board;
    {
        const Stopwatch watch(seconds["sections"]);
        board = cooling_board(task);
    }
    const PlateModel& model = *board.model;
    FreeBoard free(model, task.tree, board.slow ? nullptr : task.factor, task.means, seconds);
    Cooling cooling;
    cooling.numbers = shape_numbers(task.board, model.rest.get(), task.concavity);
    const std::vector<Index> asked = asked_numbers(task, cooling.numbers);
    const MeshPlaces places(model);
    const MatrixXd units = shape_loads(places, cooling.numbers);
    const MatrixXd loads = all_loads(task, board, units, asked);
    const std::size_t count = task.celsius.size();
    std::optional<PartSum> parts;
    LookAtQuad look;
    if (task.shapes) {
        constexpr Index told = 3;
        parts.emplace(model, *board.layup, *board.sections, board.forces, told);
        look = [&](int quad, const ElementTables& tables, const MotionStrains& strains) {
            parts->add(quad, tables, strains, count);
        };
    }
    const MatrixXd u = free.solve(loads, look, seconds);
    cooling.residual = free.residual();
    cooling.motion = u.leftCols(static_cast<Index>(count));
    cooling.values = units.transpose() * cooling.motion;
    if (task.adjoints) {
        cooling.adjoint.resize(u.rows(), units.cols());
        for (std::size_t k = 0; k < asked.size(); ++k) {
            cooling.adjoint.col(asked[k]) = u.col(static_cast<Index>(count + k));
        }
    }
    if (task.shapes) {
        add_shapes(task, board, places, parts->works(), free.reaction(), cooling);
    }
    return cooling;
}

} // namespace vrid
