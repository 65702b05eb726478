#include "mesh/gmsh_library.hpp"

#include <dlfcn.h>

#include "mesh/board/error.hpp"

namespace vrid {

namespace {

[[noreturn]] void refuse(const char* why) {
    throw SolveError("mesh", std::string("the library Gmsh cannot be loaded: ") +
                                 (why == nullptr ? "no reason given" : why));
}

template <class Function> void find(void* library, Function& function, const char* name) {
    void* const found = dlsym(library, name);
    if (found == nullptr) {
        refuse(dlerror());
    }
    function = reinterpret_cast<Function>(found); // what dlsym is for
}

GmshLibrary opened() {
    void* const library = dlopen(VRID_GMSH_LIBRARY, RTLD_NOW | RTLD_LOCAL);
    if (library == nullptr) {
        refuse(dlerror());
    }
    GmshLibrary gmsh{};
    find(library, gmsh.initialize, "gmshInitialize");
    find(library, gmsh.finalize, "gmshFinalize");
    find(library, gmsh.free, "gmshFree");
    find(library, gmsh.last_error, "gmshLoggerGetLastError");
    find(library, gmsh.set_number, "gmshOptionSetNumber");
    find(library, gmsh.add_model, "gmshModelAdd");
    find(library, gmsh.add_point, "gmshModelGeoAddPoint");
    find(library, gmsh.add_line, "gmshModelGeoAddLine");
    find(library, gmsh.add_curve_loop, "gmshModelGeoAddCurveLoop");
    find(library, gmsh.add_plane_surface, "gmshModelGeoAddPlaneSurface");
    find(library, gmsh.set_transfinite_curve, "gmshModelGeoMeshSetTransfiniteCurve");
    find(library, gmsh.set_transfinite_surface, "gmshModelGeoMeshSetTransfiniteSurface");
    find(library, gmsh.set_recombine, "gmshModelGeoMeshSetRecombine");
    find(library, gmsh.synchronize, "gmshModelGeoSynchronize");
    find(library, gmsh.generate, "gmshModelMeshGenerate");
    find(library, gmsh.get_nodes, "gmshModelMeshGetNodes");
    find(library, gmsh.get_elements, "gmshModelMeshGetElements");
    return gmsh;
}

} // namespace

const GmshLibrary& gmsh_library() {
    static const GmshLibrary gmsh = opened();
    return gmsh;
}

} // namespace vrid
