#pragma once

#include <cstddef>
#include <mutex>
#include <vector>

#include "mesh/gmsh_library.hpp"

namespace vrid {

/// Gmsh for the time of one mesh: it has global state, so there is one at a time, and it must not
/// print. \throws SolveError from every call that Gmsh reports an error of
class GmshSession {
  public:
    GmshSession();
    ~GmshSession();
    GmshSession(const GmshSession&) = delete;
    GmshSession& operator=(const GmshSession&) = delete;

    void add_point(double x, double y, int tag);
    /// A line that is one side of a quad.
    void add_side(int from, int to, int tag);
    /// A surface to be filled with a grid of quads, within the lines (negative: backwards).
    void add_grid(std::vector<int> lines, std::vector<int> corners, int tag);
    void generate();

    struct Nodes {
        std::vector<std::size_t> tags;
        std::vector<double> coordinates; ///< three a node
    };
    [[nodiscard]] Nodes nodes() const;
    /// Node tags of the surface's quads, four each; empty when there are other elements.
    [[nodiscard]] std::vector<std::size_t> quads(int surface) const;

  private:
    void check(int error) const;
    std::lock_guard<std::mutex> lock_;
    const GmshLibrary& gmsh_;
};

} // namespace vrid
