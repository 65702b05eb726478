#pragma once

#include <array>
#include <functional>
#include <memory>
#include <vector>

#include "mesh/mesher.hpp"
#include "solver/settings.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/numbering.hpp"

namespace vrid {

/// What boards share that differ in their section only: a mesh and, at both degrees, the order of
/// elimination.
struct Prepared {
    Mesh mesh;
    int degree = 0;
    double max_size = 0;                  ///< asked for [m]
    std::array<EliminationTree, 2> trees; ///< at degree - 1 (or 1) and at degree
    int unknowns = 0;                     ///< at degree
    std::vector<double> stations;         ///< of the cases, rising [m]
    std::vector<double> lines;            ///< mesh_lines of the board
};

using SharedPrepared = std::shared_ptr<const Prepared>;

/// The tree of one of the two degrees; it keeps all of `prepared` alive.
inline std::shared_ptr<const EliminationTree> tree_of(const SharedPrepared& prepared, int degree) {
    return {prepared, &prepared->trees[degree < prepared->degree ? 0 : 1]};
}

/// What the board's mesh is prepared with. \param order of elimination of a numbering; null:
/// elimination_order with the stations
SharedPrepared prepared_on(const Board& board, Mesh mesh, int degree, double max_size,
                           std::vector<double> stations,
                           const std::function<EliminationTree(const Numbering&)>& order = nullptr);

/// Whether the board may be computed on it: same lines and all stations asked for; degree and size
/// as in the settings unless these leave them open. \throws std::logic_error naming what differs
void check_prepared(const Prepared& prepared, const Board& board, const Settings& settings,
                    const std::vector<double>& stations);

} // namespace vrid
