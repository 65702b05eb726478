#include "mesh/gmsh_session.hpp"

#include <array>

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

std::mutex& one_at_a_time() {
    static std::mutex one;
    return one;
}

// An array that Gmsh has allocated, as a vector; frees it.
template <class T> std::vector<T> taken(const GmshLibrary& gmsh, T* values, std::size_t count) {
    std::vector<T> copy;
    if (values != nullptr) {
        copy.assign(values, values + count);
        gmsh.free(values);
    }
    return copy;
}

// The same of an array of arrays: all of them, one behind the other.
std::vector<std::size_t> taken(const GmshLibrary& gmsh, std::size_t** lists, std::size_t* sizes,
                               std::size_t count) {
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < count; ++i) {
        const std::vector<std::size_t> list = taken(gmsh, lists[i], sizes[i]);
        all.insert(all.end(), list.begin(), list.end());
    }
    gmsh.free(lists);
    gmsh.free(sizes);
    return all;
}

} // namespace

const GmshLibrary& gmsh_library() {
    static const GmshLibrary gmsh = opened();
    return gmsh;
}

GmshSession::GmshSession() : lock_(one_at_a_time()), gmsh_(gmsh_library()) {
    int error = 0;
    gmsh_.initialize(0, nullptr, 0, &error); // 0: no user's own settings, the mesh is ours
    check(error);
    gmsh_.set_number("General.Terminal", 0, &error);
    gmsh_.set_number("General.NumThreads", 1, &error);
    gmsh_.set_number("General.AbortOnError", 2, &error);
    gmsh_.add_model("board", &error);
}

GmshSession::~GmshSession() {
    int ignored = 0;
    gmsh_.finalize(&ignored);
}

void GmshSession::add_point(double x, double y, int tag) {
    int error = 0;
    gmsh_.add_point(x, y, 0, 0, tag, &error);
    check(error);
}

void GmshSession::add_side(int from, int to, int tag) {
    int error = 0;
    gmsh_.add_line(from, to, tag, &error);
    check(error);
    gmsh_.set_transfinite_curve(tag, 2, "Progression", 1, &error);
    check(error);
}

void GmshSession::add_grid(std::vector<int> lines, std::vector<int> corners, int tag) {
    int error = 0;
    gmsh_.add_curve_loop(lines.data(), lines.size(), tag, 0, &error);
    check(error);
    int loop = tag;
    gmsh_.add_plane_surface(&loop, 1, tag, &error);
    check(error);
    gmsh_.set_transfinite_surface(tag, "Left", corners.data(), corners.size(), &error);
    check(error);
    gmsh_.set_recombine(2, tag, 45, &error);
    check(error);
}

void GmshSession::generate() {
    int error = 0;
    gmsh_.synchronize(&error);
    check(error);
    gmsh_.generate(2, &error);
    check(error);
}

GmshSession::Nodes GmshSession::nodes() const {
    std::size_t* tags = nullptr;
    double* coordinates = nullptr;
    double* parameters = nullptr;
    std::array<std::size_t, 3> counts{};
    int error = 0;
    gmsh_.get_nodes(&tags, &counts[0], &coordinates, &counts[1], &parameters, &counts[2], -1, -1, 0,
                    0, &error);
    check(error);
    (void)taken(gmsh_, parameters, counts[2]);
    return {taken(gmsh_, tags, counts[0]), taken(gmsh_, coordinates, counts[1])};
}

std::vector<std::size_t> GmshSession::quads(int surface) const {
    int* types = nullptr;
    std::size_t type_count = 0;
    std::size_t** tags = nullptr;
    std::size_t* tag_counts = nullptr;
    std::size_t tag_lists = 0;
    std::size_t** nodes = nullptr;
    std::size_t* node_counts = nullptr;
    std::size_t node_lists = 0;
    int error = 0;
    gmsh_.get_elements(&types, &type_count, &tags, &tag_counts, &tag_lists, &nodes, &node_counts,
                       &node_lists, 2, surface, &error);
    check(error);
    (void)taken(gmsh_, tags, tag_counts, tag_lists);
    std::vector<std::size_t> all = taken(gmsh_, nodes, node_counts, node_lists);
    constexpr int four_node_quad = 3;
    return taken(gmsh_, types, type_count) == std::vector<int>{four_node_quad}
               ? all
               : std::vector<std::size_t>{};
}

void GmshSession::check(int error) const {
    if (error == 0) {
        return;
    }
    char* text = nullptr;
    int ignored = 0;
    gmsh_.last_error(&text, &ignored);
    const std::string why = text == nullptr ? "" : text;
    gmsh_.free(text);
    throw SolveError("mesh", "Gmsh: " + (why.empty() ? "error " + std::to_string(error) : why));
}

} // namespace vrid
