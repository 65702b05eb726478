#pragma once

#include <cstddef>
#include <mutex>
#include <vector>

#include <gmshc.h>

namespace vrid {

/// The functions of Gmsh that the mesher calls. Gmsh draws some hundred libraries with it, whose
/// loading takes longer than solving a coupon: it is opened when the first mesh needs it, not at
/// the program's start. Hence its C interface, whose names can be looked up and whose types the
/// header gives.
struct GmshLibrary {
    decltype(&gmshInitialize) initialize;
    decltype(&gmshFinalize) finalize;
    decltype(&gmshFree) free;
    decltype(&gmshLoggerGetLastError) last_error;
    decltype(&gmshOptionSetNumber) set_number;
    decltype(&gmshModelAdd) add_model;
    decltype(&gmshModelGeoAddPoint) add_point;
    decltype(&gmshModelGeoAddLine) add_line;
    decltype(&gmshModelGeoAddCurveLoop) add_curve_loop;
    decltype(&gmshModelGeoAddPlaneSurface) add_plane_surface;
    decltype(&gmshModelGeoMeshSetTransfiniteCurve) set_transfinite_curve;
    decltype(&gmshModelGeoMeshSetTransfiniteSurface) set_transfinite_surface;
    decltype(&gmshModelGeoMeshSetRecombine) set_recombine;
    decltype(&gmshModelGeoSynchronize) synchronize;
    decltype(&gmshModelMeshGenerate) generate;
    decltype(&gmshModelMeshGetNodes) get_nodes;
    decltype(&gmshModelMeshGetElements) get_elements;
};

/// Opened once, and kept to the end of the process. \throws SolveError when it cannot be opened
const GmshLibrary& gmsh_library();

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
