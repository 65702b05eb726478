#include "solver/bent_edge_weights.hpp"

#include <optional>
#include <string>
#include <vector>

#include "solver/bend_weights.hpp"

namespace vrid {

namespace {

using FootRolls = Eigen::Matrix<double, Eigen::Dynamic, 2>;

// What the work of forces on the feet's rolls owes to the feet's free motions, the forces held:
// free_motions x 2. By central differences of a smooth function of five angles and places.
Eigen::Matrix<double, free_motions, 2> by_feet(const BentStand& stand, const BentRest& rest,
                                               const VectorXd& forces) {
    constexpr double step = 1e-5; // [m, rad]
    const FootedPlate& plate = stand.plate;
    const auto moments = [&](int motion, double by) {
        FreeMotions a = rest.a;
        a(motion) += by;
        VectorXd u = rest.u;
        turn_feet(plate.model, plate.feet, a, u);
        const FootRolls rolls = bent_foot_rolls(plate.model, plate.feet, a, u);
        return Eigen::RowVector2d(forces.transpose() * rolls);
    };
    Eigen::Matrix<double, free_motions, 2> slopes;
    for (int motion = 0; motion < free_motions; ++motion) {
        slopes.row(motion) = (moments(motion, step) - moments(motion, -step)) / (2 * step);
    }
    return slopes;
}

class Owed {
  public:
    Owed(const BentStand& stand, const BentEdge& edge, const EdgeCondition& condition,
         const BentRest& rest, const BentCurve& shown)
        : stand_(stand), rest_(rest), threads_(stand.means.threads),
          state_(bent_state(stand.bent, rest.u, threads_)),
          forces_(on_board(stand, edge, condition, rest)) {
        FootedPlate& plate = stand.plate;
        bend_plate(plate, state_.K, bent_foot_motions(plate.model, plate.feet, rest.a, rest.u),
                   stand.means);
        compliance_ = edge_compliance(plate, edge.line.side, threads_, edge.line.chords);
        tilted_ = tilt_edge(compliance_, edge.points, edge.rest, condition.tilt);
        tilted_.K += turn_stiffness(plate.model, plate.feet, rest.a, forces_);
        situation_.emplace(EdgeSituation{
            compliance_, tilted_, rest.contact, shown.curve, {condition.force, condition.share}});
        at_.emplace(EdgeAtRest{plate,
                               *situation_,
                               shown.even,
                               shown.even_rest,
                               {condition.law, condition.hardness, condition.tilt},
                               rest.motion});
    }

    // The motions whose work with the change of the board's forces is the change of the numbers.
    [[nodiscard]] MatrixXd motions() const {
        const FootedPlate& plate = stand_.plate;
        const std::vector<NamedQuantity> named = edge_numbers(*situation_, FootNeeds{});
        MatrixXd load = number_loads(*at_);
        MatrixXd direct = MatrixXd::Zero(load.rows(), load.cols());
        MatrixXd on_feet = MatrixXd::Zero(free_motions, load.cols());
        const double sign = tilted_.line.side == Side::left ? 1 : -1;
        const FootRolls rolls = sign * bent_foot_rolls(plate.model, plate.feet, rest_.a, rest_.u);
        const auto turns = by_feet(stand_, rest_, sign * forces_);
        for (Index r = 0; r < load.cols(); ++r) {
            const std::string& name = named[static_cast<std::size_t>(r)].name;
            if (name == "balance") {
                load.col(r).setZero();
            } else if (name.starts_with("roll_moment")) {
                const Index foot = name == "roll_moment_rear" ? 0 : 1;
                direct.col(r) = rolls.col(foot);
                load.col(r) = -tangent_forces(plate.model, state_.K, rolls.col(foot)) -
                              snow_answer(*at_, rolls.col(foot));
                on_feet.col(r) = turns.col(foot);
            }
        }
        on_feet += plate.motion.leftCols<free_motions>().transpose() * load;
        return -direct - follow(*at_, load, on_feet, threads_);
    }

  private:
    const BentStand& stand_;
    const BentRest& rest_;
    int threads_;
    BentState state_;
    VectorXd forces_; // the snow's less the board's
    EdgeCompliance compliance_;
    TiltedEdge tilted_;
    std::optional<EdgeSituation> situation_;
    std::optional<EdgeAtRest> at_;
};

} // namespace

SectionWeights bent_edge_weights(const BentStand& stand, const BentEdge& edge,
                                 const EdgeCondition& condition, const BentRest& rest,
                                 const BentCurve& shown, SectionCache& sections) {
    const MatrixXd motions = Owed(stand, edge, condition, rest, shown).motions();
    const int threads = stand.means.threads;
    SectionWeights weights = model_places(stand.plate.model, sections, motions.cols());
    const StrainFields strains = bent_strains(stand.bent, rest.u, threads);
    for (Index r = 0; r < motions.cols(); ++r) {
        NumberWeights own;
        add_strain_work(stand.bent, strain_changes(stand.bent, rest.u, motions.col(r), threads),
                        strains, 1, own);
        weights.weight.col(r) = own;
    }
    return weights;
}

} // namespace vrid
