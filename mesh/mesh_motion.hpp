#pragma once

#include <array>
#include <functional>
#include <vector>

#include <Eigen/Core>
#include <Eigen/SparseCholesky>

#include "mesh/board/board.hpp"
#include "mesh/lines.hpp"
#include "mesh/mesh.hpp"

namespace vrid {

/// The lines of two boards that differ by a small change of one value, below and above the mesh's.
struct LineChange {
    const Board& below;
    const Board& above;
    const MeshLines& lines_below;
    const MeshLines& lines_above;
    double width = 0; ///< of the value, from below to above
};

/// Signed way along a normal of a straight line from a point to the line [m].
double ahead(const StraightLine& line, const Eigen::Vector2d& at, const Eigen::Vector2d& normal);

/// Speeds of a board's mesh lines by a change: each line is found again among those below and above
/// by its rank, direction and place; one that is not found stays.
class LineSpeeds {
  public:
    LineSpeeds(const LineChange& change, const MeshLines& lines);

    /// Of a straight line along its normal at a point of it.
    [[nodiscard]] double straight(std::size_t line, const Eigen::Vector2d& at,
                                  const Eigen::Vector2d& normal) const;
    /// Of a parallel's distance from the outline.
    [[nodiscard]] double parallel(std::size_t line) const { return parallel_[line]; }
    /// Of a point of the outline at a fixed parameter of its piece.
    [[nodiscard]] Eigen::Vector2d outline(const OutlinePlace& place) const;

  private:
    const LineChange& change_;
    std::vector<const StraightLine*> below_, above_; // per straight line; null: it stays
    std::vector<double> parallel_;
};

/// Velocities of a mesh's points by some value: per quad, at the places of Mesh::geometry.
using MeshVelocity = std::vector<Eigen::Matrix2Xd>;

/// How a mesh moves with the lines it was made along.
///
/// A point on a line keeps to it: the normal part of its velocity is the line's own, that of the
/// outline at a fixed parameter of its piece, of a parallel that of the outline at its foot and the
/// change of the distance. Along lines, and off them, nothing is asked of the velocity: vertices
/// take the one of least sum of squared differences over the mesh's edges, each over the edge's
/// length, so that narrow bands move as one; sides and insides of quads follow by their shares
/// (Coons). All of it is linear in the change, with one factorisation for all values.
class MeshMotion {
  public:
    /// \param lines those of `board` that the mesh was made along and that mean something: others
    /// may be left out, the mesh then carries them along
    MeshMotion(const Mesh& mesh, const Board& board, const MeshLines& lines);

    /// Per unit of the value [m]. Lines of the change are found again by their place and rank.
    [[nodiscard]] MeshVelocity velocity(const LineChange& change) const;
    /// Of a move of the outline alone, outwards along its normal by `outwards` at each place (no
    /// unit, or [m]): parallels go with it at their distance, straight lines stay.
    [[nodiscard]] MeshVelocity
    of_outline(const std::function<double(const OutlinePlace&)>& outwards) const;
    /// What brings points that are a little off their lines back onto them [m].
    [[nodiscard]] MeshVelocity onto_lines() const;

  private:
    enum class On { outline, parallel, straight };
    // A point's tie to a line: n . velocity is the line's.
    struct Tie {
        On on = On::outline;
        std::size_t line = 0; // of the lines
        OutlinePlace foot;    // on the outline; unused for straight lines
        Eigen::Vector2d at{0, 0}, normal{0, 0};
    };
    struct Side {
        std::array<int, 2> vertices{};
        std::vector<Tie> inner; // ties of the points between the vertices; empty: on no line
    };
    // What is left free of a vertex: nothing, along `free`, or all.
    struct Vertex {
        std::vector<Tie> ties; // one or two
        Eigen::Vector2d free{0, 0};
        int first = -1, count = 0; // its unknowns
    };

    using Speed = std::function<double(const Tie&)>; // along the tie's normal
    void add_side(std::size_t edge, const Eigen::Matrix2Xd& points, bool boundary);
    [[nodiscard]] bool on_straight(const StraightLine& line, const Eigen::Matrix2Xd& points) const;
    [[nodiscard]] Tie tie_at(const Tie& of, const Eigen::Vector2d& at) const;
    void number_unknowns();
    void factorise();
    [[nodiscard]] std::vector<Eigen::Vector2d> vertex_speeds(const Speed& speed) const;
    [[nodiscard]] MeshVelocity everywhere(const Speed& speed) const;

    const Mesh& mesh_;
    const Board& board_;
    MeshLines lines_;
    OutlineDistance distance_;
    std::vector<Side> sides_; // by mesh edge
    std::vector<Vertex> vertices_;
    std::vector<double> weight_; // by mesh edge
    int unknowns_ = 0;
    Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor_;
};

/// The mesh with its points moved by `share` of the velocity.
Mesh moved_mesh(const Mesh& mesh, const MeshVelocity& velocity, double share);

} // namespace vrid
