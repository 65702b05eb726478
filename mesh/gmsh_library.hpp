#pragma once

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

} // namespace vrid
