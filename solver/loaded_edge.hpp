#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>

#include "solver/edge_pass.hpp"
#include "solver/strength/weakest.hpp"

namespace vrid {

/// What a load does of which the answer is no multiple.
struct LoadTry {
    double use = 0;      ///< of the strength: a stress over what is borne, 1 at failure
    std::string why_not; ///< there is no such state; empty: there is
};

/// The load at which the use is 1.
struct RaisedLoad {
    double load = 0;     ///< [as tried]; where use does not get to 1, the last with a state
    double use = 0;      ///< there
    double growth = 1;   ///< d ln use / d ln load there
    std::string why_not; ///< use does not get to 1; empty: it does, to a thousandth
    int tries = 0;
};

/// Raises or lowers a load by secants of ln use over ln load, kept between the loads known to be
/// below and above. Where a load has no state, halves the way back to the last that has one.
/// \param start with a state \param most the largest load that is tried
RaisedLoad raise_load(double start, double most, const std::function<LoadTry(double)>& at);

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
