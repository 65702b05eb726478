#pragma once

#include <array>
#include <map>
#include <optional>
#include <vector>

#include "solver/bent_edge.hpp"
#include "solver/edge.hpp"

namespace vrid {

/// The model as a plate on the board's two rigid foot patches. \throws as footed_plate
FootedPlate on_its_feet(const Board& board, PlateModel model,
                        std::shared_ptr<const EliminationTree> tree, SolveMeans means);
/// For bent conditions alone: held_plate, which their first step factors.
FootedPlate held_on_its_feet(const Board& board, PlateModel model,
                             std::shared_ptr<const EliminationTree> tree);

/// Where a pass left its bent conditions, in their order; without equilibrium where there is none.
struct BentRests {
    PlateModel model;
    std::vector<BentRest> at;
};

/// Every condition on one board at one degree: each side's edge is made ready once, and each
/// condition begins from the one before.
class EdgePass {
  public:
    /// \param plate must outlive this; bent conditions leave it at their last tangent, so that none
    /// of small motion may follow
    /// \param near the same conditions at a lower degree on the same mesh, from which bent ones
    /// begin; null: each begins from the one before; must outlive this
    EdgePass(const Board& board, FootedPlate& plate, const EdgeOptions& options,
             const BentRests* near = nullptr);

    /// \param weights_with also find the numbers' weights; null: not
    /// \param seconds by part, added to
    EdgeConditionResult condition(const EdgeCondition& condition, SectionCache* weights_with,
                                  std::map<std::string, double>& seconds);

    /// Of all bent conditions so far, in their order.
    [[nodiscard]] const std::vector<BentRest>& bent_rests() const { return rests_; }

    /// The whole board in the condition before, which is at rest.
    void add_motion(EdgeConditionResult& last);

    /// The whole board in every condition so far of one side: one block solve.
    void add_motion(std::vector<EdgeConditionResult>& results, Side side);

  private:
    // One side's edge with everything that no condition changes.
    struct Ready {
        EdgeCompliance compliance; // in small motion
        BentEdge edge;
        EdgePoints even; // of the curve that is shown
        Eigen::VectorXd even_rest;
        std::optional<TiltedEdge> tilted; // at the tilt of the last condition
        ContactState last;
        std::optional<std::size_t> last_bent; // that came to rest: of bent_rests
    };

    std::optional<Ready>& of(Side side) { return edges_[side == Side::left ? 0 : 1]; }
    Ready& ready(Side side, std::map<std::string, double>& seconds);
    void in_small_motion(Ready& ready, SectionCache* weights_with, EdgeConditionResult& found);
    void set_load(const EdgeCondition& condition, const ContactState& state,
                  Eigen::Ref<Eigen::VectorXd> force, Eigen::Ref<Eigen::VectorXd> motion) const;
    [[nodiscard]] BentRest start(const BentStand& stand, const Ready& ready,
                                 const EdgeCondition& condition) const;
    void in_large_motion(Ready& ready, SectionCache* weights_with, EdgeConditionResult& found);

    const Board& board_;
    FootedPlate& plate_;
    const EdgeOptions& options_;
    const BentRests* near_;
    std::optional<LargeMotionModel> large_; // once a condition is bent
    std::array<std::optional<Ready>, 2> edges_;
    std::vector<ContactState> states_;
    std::vector<BentRest> rests_;
};

} // namespace vrid
