#include "solver/design/shape_slopes.hpp"

#include <algorithm>
#include <cmath>

#include "solver/cases/cases.hpp"
#include "solver/design/section_slopes.hpp"
#include "solver/design/study_weights.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/mass_only.hpp"
#include "solver/response/shape_gradient.hpp"
#include "solver/selection.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Kind = NumberId::Kind;

// Of a length or a fullness: far above rounding, far below the 0.05 mm within which lines are one.
constexpr double step = 1e-6;

bool is_static(const BoardNumber& number) {
    return number.request.kind == Kind::bench_case;
}

const BenchCase& bench_of(const NumberId& request) {
    return *std::find_if(case_table().begin(), case_table().end(), [&](const BenchCase& bench) {
        return bench.info.name == request.bench_case;
    });
}

// A velocity of the mesh where a model needs it.
struct Moves {
    Eigen::Matrix2Xd nodes;  // as Numbering::position
    Eigen::Matrix2Xd points; // integration points, quad by quad
};

Moves moves_of(const PlateModel& model, const MeshVelocity& velocity) {
    const ReferenceElement& r = model.reference;
    const MatrixXd to_nodes = geometry_to_points(model.mesh, r.nodes);
    const MatrixXd to_points = geometry_to_points(model.mesh, r.rule.point);
    Moves moves{Eigen::Matrix2Xd::Zero(2, model.numbering.nodes),
                Eigen::Matrix2Xd(2, static_cast<Index>(velocity.size()) * r.m)};
    for (std::size_t quad = 0; quad < velocity.size(); ++quad) {
        const Eigen::Matrix2Xd own = velocity[quad] * to_nodes.transpose();
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            moves.nodes.col(nodes[i]) = own.col(static_cast<Index>(i));
        }
        moves.points.middleCols(static_cast<Index>(quad) * r.m, r.m) =
            velocity[quad] * to_points.transpose();
    }
    return moves;
}

// What a loading needs of a model, its nodes moved.
PlateModel bare_copy(const PlateModel& model) {
    return {model.mesh, model.numbering, model.reference, {}, {}, nullptr};
}

void move_nodes(PlateModel& bare, const PlateModel& model, const Moves& moves, double share) {
    bare.numbering.position = model.numbering.position + share * moves.nodes;
    for (std::size_t i = 0; i < bare.mesh.lines.size(); ++i) {
        const auto edge = static_cast<std::size_t>(model.mesh.lines[i].edges.front());
        const int vertex = model.mesh.edges[edge][0]; // nodes begin with the vertices
        bare.mesh.lines[i].x = model.mesh.lines[i].x + share * moves.nodes(0, vertex);
    }
}

class StudyShape {
  public:
    StudyShape(const DesignBoard& design, const StudyResult& study, const SectionWeights& weights,
               const std::vector<BoardNumber>& numbers, int threads)
        : board_(*design.board), model_(study.solved[1]->model), study_(study), weights_(weights),
          numbers_(numbers), stations_(stations_for(numbers)),
          motion_(model_.mesh, board_, meant_lines(board_, stations_)),
          low_(model_.rest ? model_ : bare_copy(model_)), high_(low_),
          terms_(number_terms(study, numbers, false)), threads_(threads) {
        const auto count = static_cast<Index>(numbers.size());
        if (!model_.rest) {
            gradient_ = node_gradient(model_, terms_.energy, terms_.inertia, count, threads);
        }
        by_thickness_ = core_densities(design, weights);
        for (Index i = 0; i < by_thickness_.rows(); ++i) {
            by_thickness_.row(i) *= weights.places[static_cast<std::size_t>(i)].area;
        }
        for (const BoardNumber& number : numbers) {
            reaction_.push_back(reaction_of(number, threads));
        }
    }

    VectorXd slopes(const LineValue& line) {
        const ShapeChange change = shape_change(board_, line, step);
        const MeshLines below = meant_lines(*change.below, stations_);
        const MeshLines above = meant_lines(*change.above, stations_);
        const Moves moves = moves_of(
            model_, motion_.velocity({*change.below, *change.above, below, above, change.width}));
        VectorXd all = places_part(change, moves);
        all += by_thickness_.transpose() * thickness_change(change, moves);
        all += inserts_part(change);
        add_held_and_loaded(change, moves, all);
        return all;
    }

  private:
    // What the nodes' places do, the sections at the points kept; and on a rest shape what that
    // does at the places they come to.
    VectorXd places_part(const ShapeChange& change, const Moves& moves) {
        if (!model_.rest) {
            const Eigen::Map<const VectorXd> nodes(moves.nodes.data(), moves.nodes.size());
            return gradient_.transpose() * nodes;
        }
        // Above rounding, far below narrow bands (0.2 mm), and of fourth order against them.
        constexpr double size = 5e-6;
        const VectorXd one = places_difference(change.line, moves, size);
        return (4 * one - places_difference(change.line, moves, 2 * size)) / 3;
    }

    VectorXd places_difference(const LineValue& line, const Moves& moves, double size) {
        const ShapeChange change = shape_change(board_, line, size);
        move_nodes(low_, model_, moves, change.low);
        move_nodes(high_, model_, moves, change.low + change.width);
        low_.rest = rest_shape(*change.below);
        high_.rest = rest_shape(*change.above);
        const auto count = static_cast<Index>(numbers_.size());
        return (term_sums(high_, terms_.energy, terms_.inertia, count, threads_) -
                term_sums(low_, terms_.energy, terms_.inertia, count, threads_)) /
               change.width;
    }

    static StationsOf stations_for(const std::vector<BoardNumber>& numbers) {
        std::vector<NumberId> requests;
        for (const BoardNumber& number : numbers) {
            requests.push_back(number.request);
        }
        return stations_of(requests);
    }

    // K u of a case at unit turn: what its prescribed motion works against.
    VectorXd reaction_of(const BoardNumber& number, int threads) const {
        if (!is_static(number) || number.quantity.unit != Unit::twist_stiffness) {
            return {};
        }
        return internal_forces(model_, motion_of(number), threads);
    }

    [[nodiscard]] VectorXd motion_of(const BoardNumber& number) const {
        return study_.solved[1]->motion[case_index(study_, number.request)].col(0);
    }

    // The core at a point that moves: it stays in its place, its stations may move.
    [[nodiscard]] VectorXd thickness_change(const ShapeChange& change, const Moves& moves) const {
        const Layup<double> below = make_layup<double>(*change.below);
        const Layup<double> above = make_layup<double>(*change.above);
        const double low = change.low;
        const double high = change.width + low;
        VectorXd changes(by_thickness_.rows());
        for (Index i = 0; i < changes.size(); ++i) {
            const Eigen::Vector2d at = weights_.places[static_cast<std::size_t>(i)].point();
            const Eigen::Vector2d move = moves.points.col(i);
            changes(i) =
                (core_thickness(above, at + high * move) - core_thickness(below, at + low * move)) /
                change.width;
        }
        return changes;
    }

    // The inserts' mass over the area of a foot patch.
    [[nodiscard]] VectorXd inserts_part(const ShapeChange& change) const {
        VectorXd all = VectorXd::Zero(static_cast<Index>(numbers_.size()));
        if (!board_.stance || board_.mass_only.inserts_per_foot == 0) {
            return all;
        }
        const auto added = [&](const Board& board) {
            const Stance& stance = *board.stance;
            return 1 / (stance.foot_length * stance.foot_width);
        };
        const double share =
            (added(*change.above) - added(*change.below)) / change.width / added(board_);
        if (share == 0) {
            return all;
        }
        PlateModel only = bare_copy(model_);
        only.inertia = Eigen::Matrix3Xd::Zero(3, static_cast<Index>(weights_.places.size()));
        Board inserts = board_;
        inserts.mass_only.resin = 0;
        add_mass_only(inserts, only);
        for (Index r = 0; r < all.size(); ++r) {
            const Eigen::Map<const MatrixXd> weight(weights_.weight.col(r).data(), section_terms,
                                                    only.inertia.cols());
            all(r) = share * weight.row(first_inertia_term).dot(only.inertia.row(0));
        }
        return all;
    }

    void add_held_and_loaded(const ShapeChange& change, const Moves& moves, VectorXd& all) {
        move_nodes(low_, model_, moves, change.low);
        move_nodes(high_, model_, moves, change.low + change.width);
        for (std::size_t k = 0; k < numbers_.size(); ++k) {
            if (!is_static(numbers_[k])) {
                continue;
            }
            const BenchCase& bench = bench_of(numbers_[k].request);
            const Loading below = bench.loading(*change.below, low_);
            const Loading above = bench.loading(*change.above, high_);
            double& slope = all(static_cast<Index>(k));
            if (reaction_[k].size() > 0) {
                slope += 2 * reaction_[k].dot(above.motion - below.motion) / change.width;
            } else {
                const double value = numbers_[k].quantity.value;
                slope -= 2 * value * value * motion_of(numbers_[k]).dot(above.force - below.force) /
                         change.width;
            }
        }
    }

    const Board& board_;
    const PlateModel& model_;
    const StudyResult& study_;
    const SectionWeights& weights_;
    const std::vector<BoardNumber>& numbers_;
    StationsOf stations_;
    MeshMotion motion_;
    PlateModel low_, high_; // moved; with sections on a rest shape only
    NumberTerms terms_;
    int threads_;
    NodeGradient gradient_; // of the flat blank
    MatrixXd by_thickness_; // places x numbers
    std::vector<VectorXd> reaction_;
};

} // namespace

StationsOf stations_of(const std::vector<NumberId>& requests) {
    return [names = cases_of(requests)](const Board& board) {
        return case_stations(board, names.empty() ? std::vector<const BenchCase*>{}
                                                  : select_cases(board, names).run);
    };
}

MatrixXd study_shape_slopes(const DesignBoard& design, const StudyResult& study,
                            const SectionWeights& weights, const std::vector<BoardNumber>& numbers,
                            const std::vector<LineValue>& lines, int threads) {
    MatrixXd slopes(static_cast<Index>(numbers.size()), static_cast<Index>(lines.size()));
    StudyShape shape(design, study, weights, numbers, threads);
    for (Index i = 0; i < slopes.cols(); ++i) {
        slopes.col(i) = shape.slopes(lines[static_cast<std::size_t>(i)]);
    }
    return slopes;
}

} // namespace vrid
