#pragma once

#include <map>
#include <memory>
#include <string>

#include "solver/edge_pass.hpp"
#include "solver/strength/weakest.hpp"

namespace vrid {

/// A board in one edge condition, as the search for its weakest place sees it.
struct LoadedEdge {
    EdgeConditionResult result; ///< with the motion, if the board is at rest
    StrainField strain;
    HeldParts held; ///< the feet, and the part of the edge that snow presses
    [[nodiscard]] WeakestSearch::Motion motion() const { return {strain, held, {1}}; }
};

/// One board on its feet at one degree, ready for any number of conditions.
class LoadedEdges {
  public:
    /// \param board must outlive this \param tree footed_tree of the model
    LoadedEdges(const Board& board, EdgeOptions options, PlateModel model,
                std::shared_ptr<const EliminationTree> tree);

    /// Begins from the condition before. \throws SolveError
    LoadedEdge at(const EdgeCondition& condition);

  private:
    EdgeOptions options_;
    FootedPlate plate_;
    HeldParts feet_;
    EdgePass pass_;
    std::map<std::string, double> seconds_;
};

} // namespace vrid
