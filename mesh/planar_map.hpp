#pragma once

#include <vector>

#include "mesh/line_graph.hpp"

namespace vrid {

/// Faces between the edges of a line graph.
///
/// Half-edge 2e runs along edge e from a to b, 2e + 1 back; each has its face on the left. The
/// outside of a boundary edge (2e + 1) has no face.
class PlanarMap {
  public:
    /// Takes the graph; parts of it that float free inside a face are joined to the rest by cuts.
    explicit PlanarMap(LineGraph graph);

    [[nodiscard]] const LineGraph& graph() const { return graph_; }
    [[nodiscard]] int half_edges() const { return 2 * static_cast<int>(graph_.edges.size()); }
    [[nodiscard]] int next(int h) const { return next_[static_cast<std::size_t>(h)]; }
    [[nodiscard]] int previous(int h) const { return previous_[static_cast<std::size_t>(h)]; }
    [[nodiscard]] int origin(int h) const;
    [[nodiscard]] const GraphEdge& edge(int h) const;
    [[nodiscard]] bool has_face(int h) const { return h % 2 == 0 || !edge(h).boundary; }

    [[nodiscard]] Eigen::Vector2d point(int h, double u) const; ///< u runs along the half-edge
    [[nodiscard]] Eigen::Vector2d leaving(int h) const;         ///< unit direction where h starts
    [[nodiscard]] Eigen::Vector2d arriving(int h) const;        ///< unit direction where h ends
    /// Inner angle of the face of h at the origin of h, 0..2 pi.
    [[nodiscard]] double angle(int h) const;
    /// The half-edges round the face of h, starting with h.
    [[nodiscard]] std::vector<int> face(int h) const;

    /// New vertex at share u along h, which then ends there; returns the half-edge that goes on.
    int split(int h, double u);
    /// Cuts a face by a straight edge from the origin of `from` to that of `to`; returns the new
    /// half-edge from there to there.
    int cut(int from, int to);

  private:
    void link();

    LineGraph graph_;
    std::vector<int> next_, previous_;
};

} // namespace vrid
