#include "solver/design/shape_slopes.hpp"

#include <algorithm>

#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"
#include "solver/design/mix_slopes.hpp"
#include "solver/design/moved_nodes.hpp"
#include "solver/design/outline_hats.hpp"
#include "solver/design/section_slopes.hpp"
#include "solver/design/study_weights.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/shape_gradient.hpp"
#include "solver/selection.hpp"
#include "solver/system/dense_solve.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/mass_matrix.hpp"
#include "solver/system/model.hpp"

namespace vrid {

namespace {

using Kind = NumberId::Kind;

// Of a length or a fullness: far above rounding, far below the 0.05 mm within which lines are one.
constexpr double step = 1e-6;

bool is_static(const BoardNumber& number) {
    return number.request.kind == Kind::bench_case;
}

class StudyShape {
  public:
    StudyShape(const DesignBoard& design, const StudyResult& study, const SectionWeights& weights,
               const std::vector<BoardNumber>& numbers, int threads)
        : board_(*design.board), model_(study.solved[1]->model), study_(study), weights_(weights),
          numbers_(numbers), stations_(stations_for(numbers)),
          motion_(model_.mesh, board_, meant_lines(board_, stations_)), mix_(board_, weights),
          low_(bare_copy(model_)), high_(low_), terms_(number_terms(study, numbers)),
          threads_(threads) {
        if (!model_.rest) {
            find_gradient();
        }
        by_thickness_ = by_thickness(design, weights);
        if (model_.rest) {
            find_rigid_parts();
        }
        for (const BoardNumber& number : numbers) {
            reaction_.push_back(reaction_of(number, threads));
        }
    }

    VectorXd slopes(const LineValue& line) {
        const ShapeChange change = shape_change(board_, line, step);
        const Moves moves = moves_of(model_, velocity_of(motion_, change, stations_));
        VectorXd all = places_part(change, moves);
        all += by_thickness_.transpose() * thickness_change(weights_, change, moves);
        all += mix_.of(change);
        all += inserts_part(change);
        add_held_and_loaded(change, moves, all);
        return all;
    }

    OutlineDensity of_outline(const std::shared_ptr<const Mesh>& mesh) {
        if (gradient_.size() == 0) {
            find_gradient();
        }
        const OutlineHats hats(*mesh, board_.planform);
        const Eigen::Matrix2Xd slope = thickness_gradient();
        OutlineDensity found{mesh,
                             hats.vertices(),
                             hats.at(),
                             hats.outward(),
                             hats.length(),
                             {},
                             MatrixXd(hats.length().size(), static_cast<Index>(numbers_.size()))};
        for (Index i = 0; i < found.length.size(); ++i) {
            const Moves moves = moves_of(model_, motion_.of_outline([&](const OutlinePlace& at) {
                return hats.value(static_cast<std::size_t>(i), at);
            }));
            const VectorXd thicker = slope.cwiseProduct(moves.points).colwise().sum().transpose();
            const Eigen::Map<const VectorXd> nodes(moves.nodes.data(), moves.nodes.size());
            VectorXd all = gradient_.transpose() * nodes + by_thickness_.transpose() * thicker;
            add_held_and_loaded(beside_, moves, all);
            found.density.row(i) = all.transpose() / found.length(i);
        }
        for (const MixSlopes::AtOutline& at : mix_.at_outline(board_)) {
            for (const OutlineHats::Share& share : hats.at_place(at.place)) {
                found.density.row(share.hat) +=
                    share.value / found.length(share.hat) * at.by.transpose();
            }
        }
        return found;
    }

  private:
    void find_gradient() {
        gradient_ = node_gradient(model_, terms_.energy, terms_.inertia,
                                  static_cast<Index>(numbers_.size()), threads_);
    }

    // A mode x of a board on its rest shape is what strains of it, y, less the rigid motion R a of
    // least inertia: omega^2 = y^T K y at x^T M x = 1, and R moves with the nodes.
    void find_rigid_parts() {
        const MassMatrix mass = mass_matrix(model_);
        const MatrixXd rigid = rigid_body_motions(model_);
        for (const EnergyTerm& term : terms_.inertia) {
            const MatrixXd& x = term.left;
            const VectorXd strained = straining_part(model_, study_.prepared->trees[1], x);
            rigid_.push_back({term.number, -2 * term.factor * times(mass, x),
                              least_squares(rigid, strained - x)});
        }
    }

    // What the nodes' places do, the sections at the points kept; and on a rest shape what that
    // does at the places they come to.
    VectorXd places_part(const ShapeChange& change, const Moves& moves) {
        if (!model_.rest) {
            const Eigen::Map<const VectorXd> nodes(moves.nodes.data(), moves.nodes.size());
            return gradient_.transpose() * nodes;
        }
        return rest_places_slopes({board_, change.line, model_, moves, terms_.energy,
                                   terms_.inertia, static_cast<Index>(numbers_.size())},
                                  threads_);
    }

    static StationsOf stations_for(const std::vector<BoardNumber>& numbers) {
        const std::vector<NumberId> requests = each_of(numbers, &BoardNumber::request);
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

    // Of the core at every integration point, by x and y.
    [[nodiscard]] Eigen::Matrix2Xd thickness_gradient() const {
        const Layup<double> layup = make_layup<double>(board_);
        Eigen::Matrix2Xd gradient(2, by_thickness_.rows());
        for (Index i = 0; i < gradient.cols(); ++i) {
            const Eigen::Vector2d at = weights_.places[static_cast<std::size_t>(i)].point();
            for (const Index k : {0, 1}) {
                const Eigen::Vector2d move = step * Eigen::Vector2d::Unit(k);
                gradient(k, i) =
                    (core_thickness(layup, at + move) - core_thickness(layup, at - move)) /
                    (2 * step);
            }
        }
        return gradient;
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
        if (model_.rest) {
            low_.rest = rest_shape(*change.below);
            high_.rest = rest_shape(*change.above);
            add_rigid(change.width, all);
        }
        for (std::size_t k = 0; k < numbers_.size(); ++k) {
            if (!is_static(numbers_[k])) {
                continue;
            }
            const BenchCase& bench = bench_of(numbers_[k].request.bench_case);
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

    // By how much the motion of a rigid board goes otherwise at nodes that move.
    void add_rigid(double width, VectorXd& all) {
        if (!rigid_.empty()) {
            const MatrixXd change = (rigid_body_motions(high_) - rigid_body_motions(low_)) / width;
            for (const RigidPart& part : rigid_) {
                all(part.number) += part.pull.dot(change * part.share);
            }
        }
    }

    struct RigidPart {
        Index number = 0;
        VectorXd pull;  // on the mode's inertia
        VectorXd share; // of each of rigid_body_motions in what strains
    };

    const Board& board_;
    const PlateModel& model_;
    const StudyResult& study_;
    const SectionWeights& weights_;
    const std::vector<BoardNumber>& numbers_;
    StationsOf stations_;
    MeshMotion motion_;
    MixSlopes mix_;
    PlateModel low_, high_; // moved, bare
    NumberTerms terms_;
    int threads_;
    // The board as it is on either side, its outline drawn a step in and out.
    ShapeChange beside_{{},
                        std::make_shared<const Board>(board_),
                        std::make_shared<const Board>(board_),
                        2 * step,
                        -step};
    NodeGradient gradient_; // of a rest shape for pictures only
    MatrixXd by_thickness_; // places x numbers
    std::vector<VectorXd> reaction_;
    std::vector<RigidPart> rigid_; // of modes on a rest shape
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

OutlineDensity study_outline_density(const DesignBoard& design, const StudyResult& study,
                                     const SectionWeights& weights,
                                     const std::vector<BoardNumber>& numbers, int threads) {
    const std::shared_ptr<const Mesh> mesh(study.prepared, &study.prepared->mesh);
    return StudyShape(design, study, weights, numbers, threads).of_outline(mesh);
}

} // namespace vrid
