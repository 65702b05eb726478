#include "solver/cooling/cooling.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "mesh/board/error.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cooling/free_forces.hpp"
#include "solver/cooling/mesh_place.hpp"
#include "solver/cooling/quad_strains.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// The model with what creeping plastics show after hours; null where nothing creeps.
std::unique_ptr<PlateModel> slow_model(const CoolingTask& task, const Layup<double>& layup) {
    if (!creeps(task.board)) {
        return nullptr;
    }
    SectionCache sections(layup);
    auto slow = std::make_unique<PlateModel>(
        make_model(task.model.mesh, task.model.numbering.degree, sections));
    slow->rest = task.model.rest;
    return slow;
}

// Motions under some loads in equilibrium; a load of nothing moves nothing.
class FreeBoard {
  public:
    FreeBoard(const CoolingTask& task, const PlateModel& model, bool creeping, Seconds& seconds)
        : model_(model), threads_(task.means.threads), seconds_(seconds) {
        factor_ = creeping ? nullptr : task.factor;
        if (!factor_) {
            const std::vector<char> free(static_cast<std::size_t>(model.unknowns()), 0);
            factor_ = factorise_supports(model, {determinate_supports(model, free, task.tree)},
                                         task.tree, task.means, seconds)
                          .front();
        }
    }

    MatrixXd solve(const MatrixXd& loads) {
        std::vector<Loading> loadings;
        std::vector<Index> columns;
        for (Index c = 0; c < loads.cols(); ++c) {
            if (!loads.col(c).isZero(0)) {
                Loading loading{factor_->fixed, VectorXd::Zero(loads.rows()), loads.col(c)};
                loadings.push_back(std::move(loading));
                columns.push_back(c);
            }
        }
        const std::vector<std::shared_ptr<const Factor>> factors(loadings.size(), factor_);
        const std::vector<CaseSolution> solutions =
            solve_loadings(model_, loadings, factors, threads_, seconds_);
        MatrixXd u = MatrixXd::Zero(loads.rows(), loads.cols());
        for (std::size_t i = 0; i < columns.size(); ++i) {
            u.col(columns[i]) = solutions[i].u;
            residual_ = std::max(residual_, solutions[i].residual);
        }
        refine(loads, u);
        return u;
    }

    // Force at the supports over the largest nodal load, of forces and of moments each; the
    // largest.
    [[nodiscard]] double reaction(const MatrixXd& loads, const MatrixXd& u, Index c) const {
        const VectorXd lack = internal_forces(model_, u.col(c), threads_) - loads.col(c);
        double largest = 0;
        for (Index k = 0; k < lack.size(); ++k) {
            if (factor_->fixed[static_cast<std::size_t>(k)] != 0) {
                largest = std::max(largest, std::abs(lack(k)));
            }
        }
        const double load = loads.col(c).cwiseAbs().maxCoeff();
        return load > 0 ? largest / load : 0;
    }

    [[nodiscard]] double residual() const { return residual_; }

  private:
    // Once more: the loads are those of stretching, what is looked for is a bending that they leave
    // over, so that a small rest of force is a large share of it.
    void refine(const MatrixXd& loads, MatrixXd& u) const {
        MatrixXd lack = loads - internal_forces(model_, u, threads_);
        for (Index k = 0; k < lack.rows(); ++k) {
            if (factor_->fixed[static_cast<std::size_t>(k)] != 0) {
                lack.row(k).setZero();
            }
        }
        const std::vector<const Factor*> own(static_cast<std::size_t>(u.cols()), factor_.get());
        u += vrid::solve(own, lack, threads_);
    }

    const PlateModel& model_;
    int threads_;
    Seconds& seconds_;
    std::shared_ptr<const Factor> factor_;
    double residual_ = 0;
};

// Takes a rigid motion out: then the axis rises by nothing at the contact stations, and the chords
// there have no slope in the mean.
void stand_on_contacts(const Board& board, const PlateModel& model, VectorXd& u) {
    const RestShape* rest = model.rest.get();
    const auto place = [&](double x) { return rest != nullptr ? rest->place(x) : x; };
    const auto rise = [&](double x, double y) {
        const ShapeNumber number = free_rise(board, rest, {x, y});
        return shape_loads(model, {number}).col(0).dot(u);
    };
    const MeshPlaces places(model);
    const auto plain = [&](double x, double y) { return rise_at(model, places.at({x, y}), u); };
    // Three points tell the plane between what moved and what is to be told.
    const double tail = tail_contact(board);
    const double nose = nose_contact(board);
    const auto [right, left] =
        y_extent(board.planform, tail).value_or(std::array<double, 2>{-1e-3, 1e-3});
    const auto off = [&](double x, double y) { return plain(x, y) - rise(x, y); };
    const double along = (off(nose, right) - off(tail, right)) / (place(nose) - place(tail));
    const double across = (off(tail, left) - off(tail, right)) / (left - right);
    const double at_origin = off(tail, right) - along * place(tail) - across * right;
    const auto& position = model.numbering.position;
    for (Index node = 0; node < position.cols(); ++node) {
        const Index first = unknowns_per_node * node;
        const double x = position(0, node);
        u(first + comp_w) -= at_origin + along * place(x) + across * position(1, node);
        u(first + comp_bx) += along;
        u(first + comp_by) += across * cosine_at(model, static_cast<int>(node));
        if (rest != nullptr) {
            u(first + comp_u) += along * rest->z(x);
            u(first + comp_v) += across * rest->z(x);
        }
    }
}

double work(const Resultants& held, const QuadStrains& strain, const VectorXd& weight,
            Index first) {
    double sum = 0;
    for (Index c = 0; c < weight.size(); ++c) {
        sum += weight(c) * held.col(first + c).dot(strain.col(c).head<6>());
    }
    return sum;
}

Index find(const std::vector<ShapeNumber>& numbers, const std::string& name,
           std::optional<double> station = {}) {
    return std::find_if(
               numbers.begin(), numbers.end(),
               [&](const ShapeNumber& n) { return n.name == name && n.station == station; }) -
           numbers.begin();
}

// What each part does to each number at a temperature, against the common shrink; the last row is
// what that does: nothing on a flat board.
struct PartTable {
    MatrixXd at_zero, per_kelvin, of_common; // parts x numbers
};

PartTable part_table(const PlateModel& model, const FreeForces& forces, const MatrixXd& adjoint) {
    const auto parts = static_cast<Index>(forces.parts.size());
    PartTable table;
    for (MatrixXd* one : {&table.at_zero, &table.per_kelvin, &table.of_common}) {
        *one = MatrixXd::Zero(parts, adjoint.cols());
    }
    const Index m = model.reference.m;
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const ElementTables tables = quad_tables(model, quad);
        for (Index k = 0; k < adjoint.cols(); ++k) {
            const QuadStrains strain = quad_strains(model, tables, quad, adjoint.col(k));
            for (Index p = 0; p < parts; ++p) {
                const PartForces& part = forces.parts[static_cast<std::size_t>(p)];
                table.at_zero(p, k) += work(part.at_zero, strain, tables.weight, quad * m);
                table.per_kelvin(p, k) += work(part.per_kelvin, strain, tables.weight, quad * m);
                table.of_common(p, k) += work(part.of_common, strain, tables.weight, quad * m);
            }
        }
    }
    return table;
}

std::vector<ShapePart> by_layer(const PartTable& table, const FreeForces& forces,
                                const std::vector<ShapeNumber>& numbers, double celsius) {
    const double common = forces.common(celsius);
    const MatrixXd own = table.at_zero + celsius * table.per_kelvin - common * table.of_common;
    const std::array<Index, 3> which{find(numbers, "camber"), find(numbers, "concavity", 0.0),
                                     find(numbers, "twist")};
    std::vector<ShapePart> parts;
    for (std::size_t p = 0; p < forces.parts.size(); ++p) {
        const auto row = static_cast<Index>(p);
        parts.push_back(
            {forces.parts[p].layer, own(row, which[0]), own(row, which[1]), own(row, which[2])});
    }
    const Eigen::RowVectorXd rest = common * table.of_common.colwise().sum();
    const double bent = std::max(std::abs(rest(which[0])), std::abs(rest(which[1])));
    if (bent > 1e-7) { // [m] of a curved board
        parts.push_back({"common shrink", rest(which[0]), rest(which[1]), rest(which[2])});
    }
    return parts;
}

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

// How far the board rises: a sum of rises of places, found once for all motions.
class Curves {
  public:
    Curves(const Board& board, const PlateModel& model) : board_(board), places_(model) {}

    void fill(const PlateModel& model, const VectorXd& standing, CooledShape& shape) const {
        const auto rise = [&](double x, double y) {
            return rise_at(model, places_.at({x, y}), standing);
        };
        for (const double x : axis_stations(board_)) {
            const auto y = y_extent(board_.planform, x);
            const double on_axis = y ? std::clamp(0.0, (*y)[0], (*y)[1]) : 0;
            shape.axis.push_back({x, rise(x, on_axis)});
        }
        constexpr int steps = 20;
        for (const double x : {tail_contact(board_), 0.0, nose_contact(board_)}) {
            const auto y = y_extent(board_.planform, x);
            CrossCurve curve{x, {}};
            for (int i = 0; y && i <= steps; ++i) {
                const double at = (*y)[0] + ((*y)[1] - (*y)[0]) * i / steps;
                curve.points.push_back({at, rise(x, at)});
            }
            shape.across.push_back(std::move(curve));
        }
    }

  private:
    const Board& board_;
    MeshPlaces places_;
};

// Of a rest shape it is what the elements strain in a rigid motion (off_supports).
void check_reaction(double reaction, bool rest) {
    const double most = rest ? 1e-3 : 1e-7;
    if (!(reaction < most)) {
        std::ostringstream text;
        text << "a support of the free board takes " << reaction << " of the largest nodal load";
        throw SolveError("cooling", text.str());
    }
}

} // namespace

Cooling cool(const CoolingTask& task, Seconds& seconds) {
    const Layup<double> layup =
        make_layup<double>(task.board, {}, creeps(task.board) ? Pace::slow : Pace::quick);
    const std::unique_ptr<PlateModel> slow = slow_model(task, layup);
    const PlateModel& model = slow ? *slow : task.model;
    FreeBoard board(task, model, slow != nullptr, seconds);
    const FreeForces forces = free_forces(model, layup);
    Cooling cooling;
    cooling.numbers = shape_numbers(task.board, model.rest.get(), task.concavity);
    const auto count = static_cast<Index>(task.celsius.size());
    const MatrixXd units = shape_loads(model, cooling.numbers);
    MatrixXd loads(model.unknowns(), count + (task.shapes ? units.cols() : 0));
    for (Index c = 0; c < count; ++c) {
        loads.col(c) = nodal_forces(model, forces.at(task.celsius[static_cast<std::size_t>(c)]));
    }
    if (task.shapes) {
        loads.rightCols(units.cols()) = units;
    }
    const MatrixXd u = board.solve(loads);
    cooling.residual = board.residual();
    cooling.motion = u.leftCols(count);
    cooling.values = units.transpose() * cooling.motion;
    if (!task.shapes) {
        return cooling;
    }
    cooling.adjoint = u.rightCols(units.cols());
    const PartTable parts = part_table(model, forces, cooling.adjoint);
    const Curves curves(task.board, model);
    for (Index c = 0; c < count; ++c) {
        CooledShape shape;
        shape.celsius = task.celsius[static_cast<std::size_t>(c)];
        shape.largest_reaction = board.reaction(loads, u, c);
        check_reaction(shape.largest_reaction, model.rest != nullptr);
        VectorXd standing = u.col(c);
        stand_on_contacts(task.board, model, standing);
        cooling.motion.col(c) = standing;
        shape.by_layer = by_layer(parts, forces, cooling.numbers, shape.celsius);
        curves.fill(model, standing, shape);
        shape.stretch = stretch_share(task.board, layup, model, standing);
        cooling.shapes.push_back(std::move(shape));
    }
    return cooling;
}

} // namespace vrid
