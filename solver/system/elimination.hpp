#pragma once

#include <functional>
#include <memory>
#include <vector>

#include <Eigen/Core>

#include "solver/system/large_memory.hpp"

namespace vrid {

/// Unknowns of a node; dof = node_dofs * node + component.
inline constexpr int node_dofs = 5;

/// Which nodes each element has: all that the elimination needs to know of a mesh.
struct ElementDofs {
    int nodes = 0;                         ///< total number of nodes
    std::vector<int> first;                ///< elements + 1; nodes of e: node[first[e]..first[e+1])
    std::vector<int> node;                 ///< in the order of the element matrix's blocks
    std::vector<Eigen::Vector2d> centroid; ///< one per element [m]
};

/// How the elements are grouped; results do not depend on it, speed does.
struct TreeOptions {
    std::vector<double> stations; ///< preferred cuts: lines across the board with supports, x [m]
    int leaf_nodes = 28;          ///< a group of no more nodes than this is not cut further
};

/// One dense step of the elimination: joins its children (or assembles its elements), removes the
/// nodes that no element outside knows, and hands the rest on to its parent.
struct EliminationFront {
    int parent = -1;           ///< -1: root
    int depth = 0;             ///< of the root: 0
    int first_in_subtree = 0;  ///< fronts first_in_subtree..this are the subtree
    std::vector<int> children; ///< front numbers, all smaller than this one's
    std::vector<int> elements; ///< of a leaf
    std::vector<int> pivots;   ///< nodes eliminated here
    std::vector<int> boundary; ///< nodes shared with elements outside, in order of elimination
    /// Positions in pivots + boundary: of a leaf's element nodes, element by element; of a joining
    /// front's children's boundary nodes, child by child.
    std::vector<int> position;
};

/// The order of elimination of a mesh: good for any matrix and any supports on it.
struct EliminationTree {
    ElementDofs dofs;
    std::vector<EliminationFront> fronts;   ///< children before parents; roots have no boundary
    std::vector<Eigen::Vector2d> node_near; ///< mean of the centroids round a node [m]
    int largest_element = 0;                ///< nodes
};

/// Recursive bisection of the elements by geometry, across the board first. Nodes that no element
/// has are in no front; their unknowns are as if fixed.
EliminationTree build_tree(ElementDofs dofs, const TreeOptions& options = {});

/// Writes the stiffness of an element: square, node_dofs rows per node, dof = node_dofs * (place in
/// the element) + component; symmetric, both triangles filled. K comes in the right size. May be
/// called from several threads at once.
using ElementStiffness = std::function<void(int element, Eigen::MatrixXd& K)>;

/// The factored columns of one front, and what it handed on.
struct FrontFactor {
    int pivots = 0;   ///< free unknowns eliminated here
    int boundary = 0; ///< unknowns handed on: node_dofs per boundary node, fixed or not
    /// First of (pivots + boundary) x pivots numbers by columns. L, but its diagonal blocks
    /// (dense_front.hpp) are stored inverted.
    std::shared_ptr<const double> panel;
    /// First of boundary x boundary numbers by columns, lower triangle, and then of the sums of
    /// element diagonals (boundary); empty if not kept.
    std::shared_ptr<const double> schur;
};

/// Size of a factorisation.
struct FactorCost {
    double unknowns = 0;   ///< free ones
    double nonzeros = 0;   ///< of L
    double flops = 0;      ///< of a factorisation from nothing, multiply and add counted as two
    double flops_done = 0; ///< of the fronts not taken over from another factor
    double bytes = 0;      ///< of L and the kept Schur complements, shared ones included
};

struct EliminationOrder;

/// L L^T = K without its fixed rows and columns.
struct Factor {
    const EliminationTree* tree = nullptr; ///< not owned: it must outlive the factor
    std::vector<char> fixed;               ///< per dof
    std::vector<std::shared_ptr<const FrontFactor>> fronts;
    std::shared_ptr<const EliminationOrder> order; ///< of its free dofs (elimination_order.hpp)
    FactorCost cost;
};

/// What a solution may use.
struct SolveMeans {
    int threads = 1;
    MemoryStock* stock = nullptr; ///< where memory comes from; null: fresh from the system
    /// Told the share done, 0..1, by the calling thread, of a factor at most ten times a second.
    /// May throw to cancel: whatever it throws comes out. Null: nobody listens.
    std::function<void(double share)> progress = nullptr;
};

struct FactorOptions {
    SolveMeans means;
    /// A factor of the same elements with other fixed dofs: fronts without a changed dof in their
    /// subtree are taken over from it.
    const Factor* shared = nullptr;
    /// Per dof: may be fixed in one and free in another factor that will share this one. Only the
    /// Schur complements needed for that are kept; empty: none.
    std::vector<char> may_change;
};

/// Multifrontal Cholesky. `fixed` is per dof; fixed dofs are left out. The result does not depend
/// on the number of threads. Sets OpenBLAS to one thread (for the whole process).
/// Throws SolveError when a pivot is not positive or is lost in rounding (below 1e-13 of the
/// diagonal): something is free to move, or the matrix is wrong there. OutOfMemory when it needs
/// more than free_memory says.
Factor factorise(const EliminationTree& tree, const ElementStiffness& stiffness,
                 const std::vector<char>& fixed, const FactorOptions& options = {});

/// Solutions to all columns of rhs (rows: dofs; fixed rows are ignored and 0 in the result).
/// Relative residuals are that of a backward stable Cholesky; refine where that is not enough.
Eigen::MatrixXd solve(const Factor& factor, const Eigen::MatrixXd& rhs, int threads = 1);

/// The same with a factor for each column, all of one tree: fronts that they share are gone through
/// once for all their columns, and reading them is what takes the time.
Eigen::MatrixXd solve(const std::vector<const Factor*>& factors, const Eigen::MatrixXd& rhs,
                      int threads = 1);

} // namespace vrid
